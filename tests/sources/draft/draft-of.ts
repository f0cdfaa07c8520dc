import { draftMap } from '../../../src/sources/draft/draft-map.ts';
import type { Draft, WrittenCell } from '../../../src/sources/draft/draft.ts';
import { fileContent } from '../../../src/sources/draft/file-content.ts';
import { jsonTables, ndjsonTables } from '../../../src/sources/draft/json-tables.ts';
import { textTables } from '../../../src/sources/draft/text-tables.ts';

/** The draft for a file of that name and content, all of it, with clocks in Denver where it does not say. */
export function draftOf(name: string, content: string | Buffer): Draft {
  const bytes = typeof content === 'string' ? Buffer.from(content) : content;
  const read = fileContent(name, bytes, true);
  if (!('text' in read)) throw new Error(`no text: ${JSON.stringify(read)}`);
  const found =
    read.kind === 'json'
      ? jsonTables(name, read)
      : read.kind === 'ndjson'
        ? ndjsonTables(name, read)
        : textTables(name, read, true, []);
  if (found === undefined || 'problem' in found) throw new Error(`no table: ${JSON.stringify(found)}`);
  return draftMap(name, found, 'America/Denver');
}

/** The columns of the n-th entry, from 0. */
export function columnsOf(draft: Draft, entry = 0): Readonly<Record<string, WrittenCell>> {
  return draft.map.rows[entry].columns;
}

/** The places in the map that are unsure. */
export function unsureOf(draft: Draft): string[] {
  return draft.unsure.map(({ where }) => where);
}

/** What a draft of these lines says of a file; the lines joined. */
export function lines(...text: string[]): string {
  return `${text.join('\n')}\n`;
}
