import type { Dimension } from '../../units/unit.ts';
import type { AnyUnitName } from '../../units/unit-words.ts';
import { type ColumnView, columnView } from './column-view.ts';
import type { HeadPlace, WrittenHead } from './draft.ts';
import { unitOfHeader } from './header-unit.ts';
import { isNumeric, meaningByName } from './meaning.ts';
import { type DraftContext, type DraftedCell, numberCell } from './number-cell.ts';
import type { NumberStyle } from './number-style.ts';
import { doubtsOf, momentCell, type TimeColumn } from './times.ts';
import { joinedTime, timeShape } from './time-shape.ts';
import { wordCell } from './word-cell.ts';
import { timeNames, zoneNames } from './time-words.ts';

/** What stands once in a file, sorted by what it says. */
export interface HeadFacts {
  /** Columns of `jobs` by name. */
  readonly job: Map<string, DraftedCell>;
  /** A day or a point in time, and a time of day, of when the job began. */
  readonly day?: TimeColumn;
  /** Whether no word says that the job began then, or one says otherwise. */
  readonly dayIsGuess?: boolean;
  readonly clock?: TimeColumn;
  /** Whether that time of day is called the beginning, and not just a time. */
  readonly clockIsStart?: boolean;
  /** The values that a map then names. */
  readonly head: Record<string, WrittenHead>;
  readonly units: ReadonlyMap<Dimension, AnyUnitName>;
  readonly zone?: string;
  /** Labels of which nothing is made. */
  readonly unused: readonly string[];
}

/** Sorts the values that stand once in a file. */
export function headFacts(places: readonly HeadPlace[], style: NumberStyle): HeadFacts {
  const job = new Map<string, DraftedCell>();
  const head: Record<string, WrittenHead> = {};
  const units = new Map<Dimension, AnyUnitName>();
  const unused: string[] = [];
  const facts: TimesTold & { zone?: string } = {};
  const moments: { place: HeadPlace; told: TimeColumn }[] = [];
  for (const place of places) {
    const view = columnView({ ref: place.label, name: place.label, values: [place.value] }, style);
    const unit = /\bunits?\b|einheit|unite|unidad/.test(view.plain) ? unitOfHeader(place.value) : undefined;
    if (unit?.unit !== undefined) units.set(unit.dimension, unit.unit);
    else if (zoneNames.test(view.plain)) facts.zone ??= place.value;
    else if (takeTime(view, style, facts)) head[facts.day?.view === view ? 'date' : 'time'] = place.at;
    else if (!takeColumn(view, place, job, head)) {
      unused.push(textOf(place));
      const told = { view, shape: timeShape(view.texts, style, false) };
      if (told.shape?.is === 'moment' && !view.isNumber && !notStart.test(view.plain))
        moments.push({ place, told: told as TimeColumn });
    }
  }
  const [only, ...others] = moments;
  if (facts.day === undefined && only !== undefined && others.length === 0) {
    facts.day = only.told;
    facts.dayIsGuess = true;
    head.date = only.place.at;
    unused.splice(unused.indexOf(textOf(only.place)), 1);
  }
  return { job, head, units, unused, ...facts };
}

/** What a point in time that stands once is called where the job did not begin then. */
const notStart =
  /\b(end\w*|finish\w*|complet\w*|ende|fin|due|next|expir\w*|calib\w*|report\w*|print\w*|export\w*|created|generated|saved|modified|updated|version|firmware|erstellt|gedruckt|imprime|impreso)\b/;

function textOf({ label, value }: HeadPlace): string {
  return `${label}: ${value}`;
}

interface TimesTold {
  dayIsGuess?: boolean;
  day?: TimeColumn;
  clock?: TimeColumn;
  clockIsStart?: boolean;
}

/** When the job began: a moment or a day, and a time of day. */
function takeTime(view: ColumnView, style: NumberStyle, facts: TimesTold): boolean {
  const meant = meaningByName('jobs', view)?.column.name;
  if (meant !== 'started_at' && !(meant === undefined && timeNames.test(view.plain))) return false;
  const shape = timeShape(view.texts, style, false);
  if (shape === undefined || shape.is === 'seconds') return false;
  if ((shape.is === 'moment' || shape.is === 'day') && facts.day === undefined) {
    facts.day = { view, shape };
    facts.dayIsGuess = notStart.test(view.plain);
    return true;
  }
  if (shape.is !== 'clock' || facts.clock !== undefined) return false;
  facts.clock = { view, shape };
  facts.clockIsStart = meant === 'started_at';
  return true;
}

function takeColumn(
  view: ColumnView,
  place: HeadPlace,
  job: Map<string, DraftedCell>,
  head: Record<string, WrittenHead>,
): boolean {
  const { column, doubt } = meaningByName('jobs', view) ?? {};
  if (column === undefined || column.kind === 'instant' || job.has(column.name)) return false;
  const key = column.name.replace(/_(?:id|pa|kg|m|mm|w|l)$/, '');
  if (!isNumeric(column)) {
    const cell = wordCell(view, column, { head: key });
    head[key] = place.at;
    job.set(column.name, cell);
    return true;
  }
  const context: DraftContext = { units: new Map(), bareTemperatures: [], nested: true };
  const { cell, doubts, isGauge } = numberCell(view, column, context);
  const { column: _, ...reading } = cell as { column: unknown };
  head[key] = place.at;
  job.set(column.name, {
    cell: { head: key, ...reading },
    doubts: [...(doubt === undefined ? [] : [{ at: '', text: `"${place.label}": ${doubt}` }]), ...doubts],
    ...(isGauge === true ? { isGauge } : {}),
  });
  return true;
}

/** The point in time at which the job began, by the head alone, or by its day and a time of day of the rows. */
export function headStart(
  { day, clock, dayIsGuess }: HeadFacts,
  rowClock: TimeColumn | undefined,
): DraftedCell | undefined {
  if (day === undefined) return undefined;
  const doubts = [...doubtsOf(day.view.column.name, day.shape)];
  if (dayIsGuess === true)
    doubts.push({
      at: '',
      text: `"${day.view.column.name}" is the only point in time beside the table; the job is taken to begin then`,
    });
  if (day.shape.is === 'moment') {
    const { cell } = momentCell(day);
    const { column: _, ...time } = cell as { column: unknown };
    return { cell: { head: 'date', ...time }, doubts };
  }
  const from = rowClock ?? clock;
  if (from === undefined) {
    const text = 'the file tells the day only; the job is taken to begin at midnight';
    return { cell: { head: 'date', time: day.shape.time ?? 'local' }, doubts: [...doubts, { at: '', text }] };
  }
  const time = rowClock === undefined ? { head: 'time' } : { column: rowClock.view.column.ref };
  return { cell: { join: [{ head: 'date' }, time], with: ' ', time: joinedTime(day.shape, from.shape) }, doubts };
}
