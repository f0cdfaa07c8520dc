import { createHash } from 'node:crypto';

/** So many characters of an id stay in a file's name. */
const most = 60;

/**
 * The name of a page's file, from an id that may hold anything: letters, digits and hyphens stay; where anything else was in it, or capitals
 * that some file systems take for small letters, some of its hash follows, so that no two ids share a file.
 *
 * @example pageFileName('job-0042') // 'job-0042.html'
 */
export function pageFileName(id: string): string {
  const kept = id
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-+|-+$/g, '')
    .slice(0, most);
  if (kept === id && kept !== '' && !reserved.test(kept) && !hashed.test(kept)) return `${kept}.html`;
  const hash = createHash('sha256').update(id.toWellFormed()).digest('hex').slice(0, 10);
  return `${[kept, hash].filter((part) => part !== '').join('-')}.html`;
}

/** Names that some systems keep for devices. */
const reserved = /^(con|prn|aux|nul|com\d|lpt\d)$/;

/** An id that ends as the names with a hash do has one too: it could be the name of another's page. */
const hashed = /(^|-)[0-9a-f]{10}$/;
