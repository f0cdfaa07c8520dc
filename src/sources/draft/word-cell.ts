import type { Column } from '../../records/table.ts';
import { choiceOf, designationOf, flagOf } from './choice-words.ts';
import type { ColumnView } from './column-view.ts';
import type { WrittenCell } from './draft.ts';
import type { DraftedCell } from './number-cell.ts';

/** More different texts than this are no choice. */
const mostWords = 60;

/** How one of our columns of words is fed: texts as they are, or by a list of their words and ours. */
export function wordCell(view: ColumnView, column: Column, from: Readonly<Record<string, unknown>>): DraftedCell {
  const texts = [...new Set(view.texts)].filter((text) => !view.nullWords.includes(text));
  const doubts: { at: string; text: string }[] = [];
  const name = `"${view.column.name || view.column.ref}"`;
  const meant = meaningsOf(column);
  if (meant === undefined || texts.length > mostWords) {
    if (column.kind === 'choice' || column.kind === 'flag')
      doubts.push({
        at: '',
        text: `${name} holds ${texts.length} different words; list in "words" which of ours each is`,
      });
    return { cell: from as WrittenCell, doubts };
  }
  const pairs = texts.map((text) => [text, meant(text)] as const);
  const strange = pairs.filter(([, word]) => word === undefined).map(([text]) => text);
  const isRefrigerant = column.name === 'refrigerant';
  const words = Object.fromEntries(
    pairs
      .filter(([text, word]) => (word === undefined ? !isRefrigerant : String(word) !== text))
      .map(([text, word]) => [text, word ?? null]),
  );
  const changed = pairs.filter(([text, word]) => !isRefrigerant && word !== undefined && String(word) !== text);
  const shown = (list: readonly string[]) =>
    list
      .slice(0, 6)
      .map((text) => `"${text}"`)
      .join(', ');
  if (changed.length > 0 && column.kind === 'choice')
    doubts.push({
      at: '.words',
      text: `${name}: taken for ours are ${changed
        .slice(0, 6)
        .map(([text, word]) => `"${text}" as ${String(word)}`)
        .join(', ')}`,
    });
  if (strange.length > 0)
    doubts.push({
      at: '.words',
      text: isRefrigerant
        ? `${name}: ${shown(strange)} is no designation that is known here; it comes in as it stands`
        : `${name}: ${shown(strange)} ${strange.length === 1 ? 'is' : 'are'} none of ${column.words?.join(', ') ?? 'true, false'}, and not read (null)`,
    });
  return { cell: { ...from, ...(Object.keys(words).length > 0 ? { words } : {}) } as WrittenCell, doubts };
}

function meaningsOf(column: Column): ((text: string) => string | boolean | undefined) | undefined {
  if (column.name === 'refrigerant') return designationOf;
  if (column.kind === 'flag') return flagOf;
  return column.kind === 'choice' ? (text) => choiceOf(column, text) : undefined;
}
