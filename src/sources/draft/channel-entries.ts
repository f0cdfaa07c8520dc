import type { ColumnView } from './column-view.ts';
import { columnView } from './column-view.ts';
import type { WrittenEntry } from './draft.ts';
import { DraftNotes, EntryDraft } from './draft-notes.ts';
import type { HeadFacts } from './head-facts.ts';
import { isNumeric, meaningByName } from './meaning.ts';
import { type DraftContext, numberCell } from './number-cell.ts';
import type { NumberStyle } from './number-style.ts';
import { type DraftedTable, readingsEntries } from './readings-entries.ts';
import { timeColumns } from './times.ts';

/** More words than this are no names of channels. */
const mostChannels = 40;

/**
 * Drafts the entries of a table that has one row for each channel: a column names the channel, another holds its value.
 *
 * @returns undefined where it is no such table
 */
export function channelEntries(
  views: readonly ColumnView[],
  style: NumberStyle,
  context: DraftContext,
  head: HeadFacts,
  extra: Pick<WrittenEntry, 'part' | 'only'>,
): DraftedTable | undefined {
  const times = new Set(timeColumns(views, style).map(({ view }) => view));
  const values = views.filter(
    (view) => view.isNumber && !times.has(view) && /value|wert|valeur|valor|reading|result|^$|\d/.test(view.plain),
  );
  const value = values[0];
  const channel = views.find((view) => !view.isNumber && !times.has(view) && channelsOf(view, style).length > 0);
  if (value === undefined || channel === undefined || times.size === 0) return undefined;
  const unitView = views.find((view) => /\bunits?\b|einheit|unite|unidad/.test(view.plain));
  const rest = views.filter((view) => view !== value && view !== channel && view !== unitView);
  const {
    entries: [first],
    notes: restNotes,
  } = readingsEntries(rest, style, context, head, extra);
  const notes = new DraftNotes();
  notes.needsZone = restNotes.needsZone;
  notes.leftOut.push(...restNotes.leftOut);
  const named = new Map(channelsOf(channel, style).map((word) => [word, rowsOf(channel, value, unitView, word)]));
  const entries: EntryDraft[] = [];
  for (const [word, rows] of named) {
    const unit = rows.units.length === 1 ? ` (${rows.units[0]})` : '';
    const view = columnView({ ref: value.column.ref, name: `${word}${unit}`, values: rows.values }, style);
    const meaning = meaningByName('readings', view);
    if (meaning === undefined || !isNumeric(meaning.column)) continue;
    const entry = new EntryDraft('readings', { ...extra, only: { column: channel.column.ref, is: [word] } });
    for (const [name, cell] of first.columns)
      entry.set(name, entries.length === 0 ? cell : { cell: cell.cell, doubts: [] });
    entry.set('gauge', { constant: word });
    const cell = numberCell(view, meaning.column, { ...context, nested: true });
    notes.words(view, `"${word}"`, meaning.column.over === true);
    if (cell.isGauge) notes.needsSite = true;
    entry.set(meaning.column.name, cell);
    entries.push(entry);
  }
  const known = new Set(entries.flatMap((entry) => entry.extra.only?.is ?? []));
  const others = [...new Set(channel.texts)].filter((word) => !known.has(word));
  for (const word of others)
    notes.leftOut.push({
      what: `rows with "${word}" in ${channel.column.name || channel.column.ref}`,
      why: 'the word is not known here; such rows are refused, and told',
    });
  notes.doubts.push({
    where: 'rows',
    text: `each row is taken for one channel, named by "${channel.column.name || channel.column.ref}"; each channel comes in as a gauge of its own`,
  });
  return { entries, notes };
}

/** The words of a column that name what an instrument shows. */
function channelsOf(view: ColumnView, style: NumberStyle): string[] {
  const words = [...new Set(view.texts)];
  if (words.length > mostChannels) return [];
  return words.filter((word) => {
    const meaning = meaningByName('readings', columnView({ ref: 1, name: word, values: [] }, style));
    return meaning !== undefined && isNumeric(meaning.column);
  });
}

function rowsOf(
  channel: ColumnView,
  value: ColumnView,
  unit: ColumnView | undefined,
  word: string,
): { values: string[]; units: string[] } {
  const values: string[] = [];
  const units = new Set<string>();
  for (const [index, text] of channel.column.values.entries()) {
    if (text !== word) continue;
    values.push(value.column.values[index] ?? '');
    const told = unit?.column.values[index] ?? '';
    if (told !== '') units.add(told);
  }
  return { values, units: [...units] };
}
