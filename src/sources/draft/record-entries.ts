import type { Column } from '../../records/table.ts';
import type { ColumnView } from './column-view.ts';
import type { WrittenCell, WrittenEntry } from './draft.ts';
import { DraftNotes, EntryDraft } from './draft-notes.ts';
import type { HeadFacts } from './head-facts.ts';
import { columnsByName, isNumeric, meaningByName } from './meaning.ts';
import { type DraftContext, type DraftedCell, numberCell } from './number-cell.ts';
import type { NumberStyle } from './number-style.ts';
import type { DraftedTable } from './readings-entries.ts';
import type { RecordTable } from './record-table.ts';
import { joinedTime, type TimeShape, timeShape } from './time-shape.ts';
import { doubtsOf, isCounter } from './times.ts';
import { wordCell } from './word-cell.ts';

/** Drafts the entry of a table of which each row is a record. */
export function recordEntries(
  table: RecordTable,
  views: readonly ColumnView[],
  style: NumberStyle,
  context: DraftContext,
  head: HeadFacts,
  extra: Pick<WrittenEntry, 'part' | 'only'>,
): DraftedTable {
  const notes = new DraftNotes();
  const entry = new EntryDraft(table, extra);
  const used = new Set<ColumnView>();
  for (const view of views) {
    const meaning = meaningByName(table, view);
    const what = view.column.name || `column ${view.column.ref}`;
    if (meaning === undefined) continue;
    const { column, doubt } = meaning;
    if (entry.has(column.name)) {
      notes.leftOut.push({ what, why: `${column.name} comes from another column already` });
      used.add(view);
      continue;
    }
    const cell = recordCell(view, column, views, style, context, notes, used);
    if (cell === undefined) continue;
    entry.set(
      column.name,
      doubt === undefined ? cell : { ...cell, doubts: [{ at: '', text: `"${what}": ${doubt}` }, ...cell.doubts] },
    );
    used.add(view);
  }
  for (const [name, cell] of head.job) if (table === 'jobs' && !entry.has(name)) entry.set(name, cell);
  fillRequired(table, entry);
  for (const view of views)
    if (!used.has(view) && (view.texts.length > 0 || view.column.name !== ''))
      notes.leftOut.push({
        what: view.column.name || `column ${view.column.ref}`,
        why: isCounter(view) ? 'it only counts the rows' : 'its name is not known here, or its values do not fit',
      });
  return { entries: [entry], notes };
}

function recordCell(
  view: ColumnView,
  column: Column,
  views: readonly ColumnView[],
  style: NumberStyle,
  context: DraftContext,
  notes: DraftNotes,
  used: Set<ColumnView>,
): DraftedCell | undefined {
  if (isNumeric(column)) {
    notes.words(view, `"${view.column.name || view.column.ref}"`, column.over === true);
    const cell = numberCell(view, column, context);
    if (cell.isGauge) notes.needsSite = true;
    return cell;
  }
  if (column.kind !== 'instant' && column.kind !== 'date') return wordCell(view, column, { column: view.column.ref });
  const shape = timeShape(view.texts, style, false);
  if (shape === undefined || shape.is === 'seconds' || shape.is === 'elapsed' || shape.is === 'clock') return undefined;
  if (!shape.zoned && column.kind === 'instant') notes.needsZone = true;
  const doubts = [...doubtsOf(view.column.name, shape)];
  if (column.kind === 'instant' && shape.is === 'day') {
    const clock = clockBeside(view, views, style, used);
    if (clock !== undefined) {
      used.add(clock.view);
      const join = [{ column: view.column.ref }, { column: clock.view.column.ref }];
      return { cell: { join, with: ' ', time: joinedTime(shape, clock.shape) }, doubts };
    }
    doubts.push({ at: '', text: `"${view.column.name}" tells the day only; midnight is taken` });
  }
  return { cell: { column: view.column.ref, time: shape.time ?? 'local' } as WrittenCell, doubts };
}

/** The first column of times of day that stands after a column of days. */
function clockBeside(
  day: ColumnView,
  views: readonly ColumnView[],
  style: NumberStyle,
  used: ReadonlySet<ColumnView>,
): { view: ColumnView; shape: TimeShape } | undefined {
  for (const view of views.slice(views.indexOf(day) + 1)) {
    const shape = used.has(view) ? undefined : timeShape(view.texts, style, false);
    if (shape?.is === 'clock') return { view, shape };
  }
  return undefined;
}

/** Columns that the table must have, made of what there is. */
function fillRequired(table: RecordTable, entry: EntryDraft): void {
  const doubt = (text: string) => [{ at: '', text }];
  for (const column of columnsByName(table).values()) {
    if (!column.required || entry.has(column.name)) continue;
    const parts = [...entry.columns.values()]
      .map(({ cell }) => cell as { column?: unknown; time?: unknown })
      .flatMap((cell) => (cell.column === undefined ? [] : [{ column: cell.column }]))
      .slice(0, 3);
    if (column.kind === 'text' && parts.length > 0)
      entry.set(column.name, {
        cell: { join: parts, with: ' ' } as WrittenCell,
        doubts: doubt(
          `the file has no column for ${column.name}; it is made of ${parts.length} others, which must tell rows apart`,
        ),
      });
    else
      entry.set(column.name, {
        cell: column.kind === 'text' ? { file_name: true } : { constant: '2000-01-01T00:00:00Z' },
        doubts: doubt(`the file has no column for ${column.name}, which every row needs; put where it comes from`),
      });
  }
}
