import { clockAlone, joinedTime, type TimeShape, timeShape } from './time-shape.ts';
import type { ColumnView, PlacedUnit } from './column-view.ts';
import type { WrittenCell } from './draft.ts';
import type { DraftedCell } from './number-cell.ts';
import { counterNames, elapsedNames, timeNames } from './time-words.ts';
import type { NumberStyle } from './number-style.ts';

/** A column of times, with how they are written. */
export interface TimeColumn {
  readonly view: ColumnView;
  readonly shape: TimeShape;
}

/** How a table tells the times of its rows. */
export interface TableTimes {
  /** Seconds since the log began. */
  readonly elapsed?: DraftedCell;
  /** A point in time. */
  readonly moment?: DraftedCell;
  /** A time of day without a date, for a date that stands elsewhere. */
  readonly clock?: TimeColumn;
  /** The columns that these are made of. */
  readonly views: readonly ColumnView[];
  /** Whether a time zone is needed to read them. */
  readonly needsZone: boolean;
}

/** The columns of a table that hold times. */
export function timeColumns(views: readonly ColumnView[], style: NumberStyle): TimeColumn[] {
  return views.flatMap((view) => {
    const isNamed = timeNames.test(view.plain) || view.units.some((unit) => unit.dimension === 'time');
    const shape = timeShape(view.texts, style, elapsedNames.test(view.plain));
    if (shape === undefined) return [];
    // Numbers are times only where the column says so, or where they are such large ones.
    const isNumber = shape.is === 'seconds' || shape.time === 'spreadsheet';
    return isNumber && !isNamed ? [] : [{ view, shape }];
  });
}

/** Which of them tell when a row was read, nearest first: a count from the start, a point in time, date and clock, a clock. */
export function tableTimes(views: readonly ColumnView[], style: NumberStyle): TableTimes {
  const found = timeColumns(views, style);
  const of = (...is: TimeShape['is'][]) => found.find(({ shape }) => is.includes(shape.is));
  const counted = found.find(
    ({ view, shape }) => (shape.is === 'seconds' || shape.is === 'elapsed') && neverFalls(view, shape),
  );
  const [moment, day, clock] = [of('moment'), of('day'), of('clock')];
  const joined =
    moment === undefined && day !== undefined && clock !== undefined ? joinedMoment(day, clock) : undefined;
  const whole = moment === undefined ? joined : momentCell(moment);
  // A moment that never changes is when the log began, and no time of its rows.
  const stands = moment !== undefined && moment.view.texts.length > 1 && new Set(moment.view.texts).size === 1;
  const fromRows = stands ? clock && clockCell(clock) : (whole ?? (clock && clockCell(clock)));
  const elapsed = counted === undefined ? fromRows : elapsedCell(counted);
  const used = [counted, moment, ...(moment === undefined ? [day, clock] : [])].flatMap((column) => column?.view ?? []);
  const needsZone = (moment ?? day) !== undefined && (moment ?? day)?.shape.zoned !== true;
  return {
    ...(elapsed === undefined ? {} : { elapsed }),
    ...(whole === undefined ? {} : { moment: whole }),
    ...(moment === undefined && day === undefined && clock !== undefined ? { clock } : {}),
    views:
      whole === undefined && counted !== undefined && day !== undefined
        ? used.filter((view) => view !== day.view)
        : used,
    needsZone,
  };
}

function neverFalls(view: ColumnView, shape: TimeShape): boolean {
  if (shape.is === 'elapsed') return true;
  // Where a file holds several logs, each begins anew.
  const isTold = elapsedNames.test(view.plain) || view.units.some((unit) => unit.dimension === 'time');
  return isTold || rises(view);
}

/** Whether numbers never fall, and rise in all. */
export function rises({ numbers }: ColumnView): boolean {
  const never = numbers.every((value, index) => index === 0 || value >= numbers[index - 1]);
  return never && (numbers.length < 2 || (numbers.at(-1) ?? 0) > numbers[0]);
}

/** Seconds since the start from a column that counts them. */
export function elapsedCell({ view, shape }: TimeColumn): DraftedCell {
  const doubts = shape.doubt === undefined ? [] : [{ at: '.time', text: shape.doubt }];
  if (shape.is === 'elapsed') return { cell: { column: view.column.ref, time: 'elapsed' }, doubts };
  const told = view.units.find((unit) => unit.dimension === 'time') ?? unitInWords(view.plain);
  const cell = { column: view.column.ref };
  if (view.column.name === 'elapsed_s') return { cell, doubts };
  if (told?.unit === undefined) {
    const text = `"${view.column.name || view.column.ref}" tells no unit of time; taken as seconds. Put "unit": "min" or "ms" if it is another`;
    return { cell, doubts: [...doubts, { at: '.unit', text }] };
  }
  return { cell: { ...cell, ...(told.unit === 's' ? {} : { unit: told.unit }) }, doubts };
}

function unitInWords(plain: string): Pick<PlacedUnit, 'unit'> | undefined {
  if (/\b(?:milli\w*|ms)\b/.test(plain)) return { unit: 'ms' };
  if (/\b(?:sec\w*|sek\w*|segundos?|s)\b/.test(plain)) return { unit: 's' };
  if (/\bmin\w*\b/.test(plain)) return { unit: 'min' };
  return /\b(?:hours?|stunden|heures|horas)\b/.test(plain) ? { unit: 'h' } : undefined;
}

/** A point in time from one column. */
export function momentCell({ view, shape }: TimeColumn): DraftedCell {
  return {
    cell: { column: view.column.ref, ...(shape.time === undefined ? {} : { time: shape.time }) },
    doubts: [...doubtsOf(view.column.name, shape)],
  };
}

function clockCell({ view, shape }: TimeColumn): DraftedCell {
  return { cell: { column: view.column.ref, time: clockAlone(shape) }, doubts: [...doubtsOf(view.column.name, shape)] };
}

function joinedMoment(day: TimeColumn, clock: TimeColumn): DraftedCell {
  const cell: WrittenCell = {
    join: [{ column: day.view.column.ref }, { column: clock.view.column.ref }],
    with: ' ',
    time: joinedTime(day.shape, clock.shape),
  };
  return { cell, doubts: [...doubtsOf(day.view.column.name, day.shape)] };
}

/** What is unsure of how a time is written. */
export function* doubtsOf(name: string, shape: TimeShape): Generator<{ at: string; text: string }> {
  if (shape.doubt !== undefined) yield { at: '.time', text: shape.doubt };
  if (!shape.dayOrMonth || typeof shape.time !== 'object') return;
  const first = shape.time.format.startsWith('d') ? 'day' : 'month';
  yield {
    at: '.time.format',
    text: `in "${name}" day and month could be swapped; the ${first} is taken to come first. If not, swap d and M`,
  };
}

/** Whether a column merely counts the rows. */
export function isCounter(view: ColumnView): boolean {
  if (!counterNames.test(view.plain) || view.units.length > 0 || view.numbers.length < 2) return false;
  return view.numbers.every((value, index) => index === 0 || value - view.numbers[index - 1] === 1);
}
