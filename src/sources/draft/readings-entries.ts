import type { ColumnView } from './column-view.ts';
import type { LeftOut, WrittenEntry } from './draft.ts';
import { noReading } from './column-words.ts';
import { DraftNotes, EntryDraft } from './draft-notes.ts';
import { type HeadFacts, headStart } from './head-facts.ts';
import { isNumeric, type Meaning, meaningByName, meaningByValues } from './meaning.ts';
import { type DraftContext, type DraftedCell, numberCell } from './number-cell.ts';
import type { NumberStyle } from './number-style.ts';
import { timeShape } from './time-shape.ts';
import { isCounter, momentCell, rises, type TableTimes, tableTimes } from './times.ts';
import { wordCell } from './word-cell.ts';

/** A table of readings: the entries for it, and for the job that it is about. */
export interface DraftedTable {
  readonly entries: readonly EntryDraft[];
  readonly notes: DraftNotes;
}

type Extra = Pick<WrittenEntry, 'part' | 'only'>;

/** A column with what it was taken for. */
type Taken = { readonly view: ColumnView; readonly meaning: Meaning };

/** Drafts the entries of a table of which each row was read at a time. */
export function readingsEntries(
  views: readonly ColumnView[],
  style: NumberStyle,
  context: DraftContext,
  head: HeadFacts,
  extra: Extra,
): DraftedTable {
  const notes = new DraftNotes();
  const named = new Map(views.map((view) => [view, meaningByName('readings', view)]));
  const isReading = (view: ColumnView) => {
    const column = named.get(view)?.column;
    return column !== undefined && isNumeric(column) && column.name !== 'elapsed_s';
  };
  const times = tableTimes(
    views.filter((view) => !isReading(view)),
    style,
  );
  const first = new EntryDraft('readings', extra);
  const job = jobCell(views, named, head);
  first.set('job_id', job.cell);
  const elapsed = elapsedOf(times, views, head, isReading, job.view, style);
  first.set('elapsed_s', elapsed.cell);
  const used = new Set([...times.views, ...[job.view, elapsed.view].flatMap((view) => view ?? [])]);
  const taken = takenColumns(views, named, used, notes.leftOut);
  const entries = [first];
  for (const { view, meaning } of taken) {
    const { column, doubt } = meaning;
    const drafted = isNumeric(column)
      ? numberCell(view, column, context)
      : wordCell(view, column, { column: view.column.ref });
    if (isNumeric(column)) notes.words(view, `"${view.column.name || view.column.ref}"`, column.over === true);
    if (drafted.isGauge) notes.needsSite = true;
    const cell =
      doubt === undefined ? drafted : withDoubt(drafted, `"${view.column.name || view.column.ref}": ${doubt}`);
    if (!first.has(column.name)) first.set(column.name, cell);
    else entries.push(...furtherGauge(first, entries.length, view, column.name, cell));
  }
  notes.needsZone = times.needsZone || head.day?.shape.zoned === false;
  const record = jobEntry(views, used, taken, times, head, job, extra);
  if (record !== undefined) entries.push(record);
  else if ([...head.job.keys()].some((name) => name !== 'job_id') && job.several !== true)
    notes.doubts.push({
      where: 'rows',
      text: 'the file tells of the job, but not when it began, so no record of the job is drafted; the readings come in without',
    });
  leaveRest(views, used, taken, record, notes);
  return { entries, notes };
}

function withDoubt(cell: DraftedCell, text: string): DraftedCell {
  return { ...cell, doubts: [{ at: '', text }, ...cell.doubts] };
}

/** A second gauge of the same kind is a row of its own. */
function furtherGauge(
  first: EntryDraft,
  number: number,
  view: ColumnView,
  name: string,
  cell: DraftedCell,
): EntryDraft[] {
  if (!first.has('gauge')) first.set('gauge', { constant: 'gauge-1' });
  const entry = new EntryDraft('readings', first.extra);
  for (const same of ['job_id', 'elapsed_s']) entry.set(same, { cell: first.columns.get(same)!.cell, doubts: [] });
  entry.set('gauge', { constant: `gauge-${number + 1}` });
  const text = `"${view.column.name || view.column.ref}" is taken for a second gauge beside the one before`;
  entry.set(name, withDoubt(cell, text));
  return [entry];
}

/** Which columns feed ours; of two for one column the first, but for vacuum gauges, of which there may be several. */
function takenColumns(
  views: readonly ColumnView[],
  named: ReadonlyMap<ColumnView, Meaning | undefined>,
  used: ReadonlySet<ColumnView>,
  leftOut: LeftOut[],
): Taken[] {
  const taken: Taken[] = [];
  const names = new Set<string>(['job_id', 'elapsed_s']);
  const take = (view: ColumnView, meaning: Meaning | undefined) => {
    if (meaning === undefined) return;
    const { name } = meaning.column;
    const before = taken.find(({ meaning: other }) => other.column.name === name);
    if (names.has(name) && (name !== 'vacuum_pa' || before === undefined || sameReadings(before.view, view))) {
      const other = before === undefined ? name : `"${before.view.column.name || before.view.column.ref}"`;
      leftOut.push({
        what: view.column.name || `column ${view.column.ref}`,
        why: `${name} comes from ${other} already`,
      });
      return;
    }
    names.add(name);
    taken.push({ view, meaning });
  };
  const rest = views.filter((view) => !used.has(view));
  for (const view of rest) take(view, named.get(view));
  for (const view of rest)
    if (named.get(view) === undefined && !isCounter(view))
      take(view, meaningByValues(view, names) ?? taken.find((other) => areTwins(other.view, view))?.meaning);
  return taken;
}

/** Whether the names of two columns of numbers differ by the number at their end only. */
function areTwins(a: ColumnView, b: ColumnView): boolean {
  const stem = (view: ColumnView) => view.plain.replace(/ ?\d{1,2}$/, '');
  return (
    a.isNumber && b.isNumber && stem(a) !== a.plain && stem(b) !== b.plain && stem(a) !== '' && stem(a) === stem(b)
  );
}

/** Whether two columns show the same in two units: each is the other times one number. */
function sameReadings(a: ColumnView, b: ColumnView): boolean {
  const count = Math.min(a.numbers.length, b.numbers.length);
  const ratios = Array.from({ length: count }, (_, index) => a.numbers[index] / b.numbers[index]).filter(
    (ratio) => Number.isFinite(ratio) && ratio > 0,
  );
  if (ratios.length < 2) return false;
  return Math.max(...ratios) < Math.min(...ratios) * 1.05;
}

interface JobCell {
  readonly cell: DraftedCell;
  readonly view?: ColumnView;
  /** Whether the rows are of several jobs. */
  readonly several?: boolean;
}

function jobCell(
  views: readonly ColumnView[],
  named: ReadonlyMap<ColumnView, Meaning | undefined>,
  head: HeadFacts,
): JobCell {
  const view = views.find((each) => named.get(each)?.column.name === 'job_id');
  if (view !== undefined)
    return { cell: { cell: { column: view.column.ref }, doubts: [] }, view, several: new Set(view.texts).size > 1 };
  const told = head.job.get('job_id');
  if (told !== undefined) return { cell: told };
  const text = 'no column and no line tells the job; its id is the name of the file, without the extension';
  return { cell: { cell: { file_name: true }, doubts: [{ at: '', text }] } };
}

/** Whether a column tells a unit that is none of time. */
function measuresOther({ units }: ColumnView): boolean {
  return units.length > 0 && units.every((unit) => unit.dimension !== 'time');
}

/** When the rows were read; `view` where a column had to stand in. */
function elapsedOf(
  times: TableTimes,
  views: readonly ColumnView[],
  head: HeadFacts,
  isReading: (view: ColumnView) => boolean,
  job: ColumnView | undefined,
  style: NumberStyle,
): { cell: DraftedCell; view?: ColumnView } {
  if (times.elapsed !== undefined) {
    const date = times.clock === undefined || times.moment !== undefined ? undefined : headStart(head, times.clock);
    return { cell: date !== undefined && 'join' in (date.cell as object) ? date : times.elapsed };
  }
  const free = views.filter(
    (view) => !isReading(view) && view.texts.length > 0 && view !== job && !measuresOther(view),
  );
  const rising = free.find((view) => view.isNumber && rises(view) && !isCounter(view)) ?? free.find(isCounter);
  const found = rising ?? free[0];
  if (found === undefined) {
    const text =
      'no column is left that could be the time of the readings; without one no map can read such a file. Export it with its times';
    return { cell: { cell: { constant: 0 }, doubts: [{ at: '', text }] } };
  }
  const name = `"${found.column.name || found.column.ref}"`;
  const text =
    rising === undefined
      ? `no column looks like the time of the readings; ${name} stands in its place, which is hardly right`
      : `no column says that it is the time of the readings; ${name} rises all the way and is taken for it, in seconds. If it only counts the rows, multiply by the interval elsewhere first`;
  const shape = timeShape(found.texts, style, false);
  if (shape?.is !== 'moment')
    return { cell: { cell: { column: found.column.ref }, doubts: [{ at: '', text }] }, view: found };
  const moment = momentCell({ view: found, shape });
  const guess = `no column says that it is the time of the readings; the numbers of ${name} look like points in time`;
  return { cell: withDoubt(moment, guess), view: found };
}

/** The record of the job that the file is about, where it tells anything of it and when it began. */
function jobEntry(
  views: readonly ColumnView[],
  used: Set<ColumnView>,
  taken: readonly Taken[],
  times: TableTimes,
  head: HeadFacts,
  job: JobCell,
  extra: Extra,
): EntryDraft | undefined {
  if (job.several === true) return undefined;
  const readings = new Set(taken.map(({ view }) => view));
  const constant = views.flatMap((view) => {
    const meaning = used.has(view) || readings.has(view) ? undefined : meaningByName('jobs', view);
    const isThroughout = view.texts.length === view.column.values.length;
    const once = isThroughout && new Set(view.texts).size === 1 && !view.isNumber;
    return meaning === undefined || !once || meaning.column.kind === 'instant'
      ? []
      : [{ view, column: meaning.column }];
  });
  const start = headStart(head, head.clockIsStart === true ? undefined : times.clock) ?? times.moment;
  if (start === undefined || (head.job.size === 0 && constant.length === 0 && head.day === undefined)) return undefined;
  const entry = new EntryDraft('jobs', { ...extra, once: true });
  entry.set('job_id', { cell: job.cell.cell, doubts: [] });
  entry.set('started_at', { cell: start.cell, doubts: head.day === undefined ? [] : start.doubts });
  for (const [name, cell] of head.job) if (!entry.has(name)) entry.set(name, cell);
  for (const { view, column } of constant) {
    if (entry.has(column.name)) continue;
    entry.set(column.name, wordCell(view, column, { column: view.column.ref }));
    used.add(view);
  }
  return entry;
}

function leaveRest(
  views: readonly ColumnView[],
  used: ReadonlySet<ColumnView>,
  taken: readonly Taken[],
  record: EntryDraft | undefined,
  { leftOut }: DraftNotes,
): void {
  const had = new Set<string>(leftOut.map(({ what }) => what));
  const fed = new Set([...used, ...taken.map(({ view }) => view)]);
  const unknown =
    record === undefined
      ? 'our readings have no column for it, or its name is not known here'
      : 'its name is not known here';
  for (const view of views) {
    const what = view.column.name || `column ${view.column.ref}`;
    if (fed.has(view) || had.has(what)) continue;
    if (view.texts.length === 0 && view.column.name === '') continue;
    leftOut.push({ what, why: whyLeft(view) ?? unknown });
  }
}

/** Why a column of readings is none; undefined where nothing but its name is in the way. */
function whyLeft(view: ColumnView): string | undefined {
  if (isCounter(view)) return 'it only counts the rows';
  if (view.isNumber && noReading.test(view.plain))
    return 'it looks computed, set or compared, which is reckoned anew here';
  return view.plain === '' ? 'no name says what it is, and its values do not tell' : undefined;
}
