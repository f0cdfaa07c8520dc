import { shownText } from '../pages/html.ts';

/**
 * A name as charts and filters carry it: on one line, and just as a page shows it, so that what is chosen in the page is what its rows
 * hold.
 *
 * @example labelText(' north\n crew') // 'north crew'
 */
export function labelText(name: string): string {
  return shownText(name).replaceAll(/\s+/g, ' ').trim();
}
