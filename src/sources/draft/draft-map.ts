import type { Dimension } from '../../units/unit.ts';
import type { AnyUnitName } from '../../units/unit-words.ts';
import { parseSourceMap } from '../parse-source-map.ts';
import { channelEntries } from './channel-entries.ts';
import { styleOf, type ColumnView } from './column-view.ts';
import type { Doubt, Draft, DraftTable, FoundTables, LeftOut, WrittenEntry, WrittenMap } from './draft.ts';
import type { DraftNotes, EntryDraft } from './draft-notes.ts';
import { type HeadFacts, headFacts } from './head-facts.ts';
import { meaningByName, meaningByValues } from './meaning.ts';
import type { DraftContext } from './number-cell.ts';
import type { NumberStyle } from './number-style.ts';
import { type DraftedTable, readingsEntries } from './readings-entries.ts';
import { zoneOfWords } from './zone-name.ts';
import { tableViews } from './table-views.ts';
import { looksLikeReadings } from './looks-like-readings.ts';
import { recordEntries } from './record-entries.ts';
import { recordTableOf } from './record-table.ts';

/**
 * Drafts a source map for what was found in a file.
 *
 * @param name the file's name, without folders
 * @param timeZone where the clocks are taken to stand where the file does not say
 * @param zoneIsTold whether somebody said so, and nobody need look
 * @returns a map that the parser of maps takes, with what is unsure of it and what it leaves out
 */
export function draftMap(name: string, found: FoundTables, timeZone: string, zoneIsTold = false): Draft {
  const style = styleOf(found.tables);
  const head = headFacts(found.heads, style);
  const tables = found.tables.map((table) => ({ table, views: tableViews(table, style) }));
  const parts = tables.length > 1;
  if (parts) nameOnlyJob(tables, head);
  const listsJobs = tables.some(({ views }) => recordTableOf(views) === 'jobs');
  const entries: EntryDraft[] = [];
  const notes: DraftNotes[] = [];
  for (const [index, { table, views }] of tables.entries()) {
    const context = contextOf(views, head.units, table.nested);
    const extra = {
      ...(parts ? { part: `part-${index + 1}` } : {}),
      ...(table.only === undefined ? {} : { only: table.only }),
    };
    const drafted = draftTable(views, style, context, head, extra);
    // Where the file lists its jobs, what stands beside their readings makes no second record of them.
    entries.push(...drafted.entries.filter((entry) => !(listsJobs && entry.extra.once === true)));
    notes.push(drafted.notes);
  }
  const site = siteOf(entries, notes, head);
  const map = writtenMap(name, found, style, entries, notes, head, timeZone, site?.map);
  const unsure = [
    ...found.doubts,
    ...found.tables.flatMap((table) => table.doubts),
    ...styleDoubts(style),
    ...entries.flatMap((entry, index) => entry.doubts(index)),
    ...notes.flatMap((note) => note.doubts),
    ...(site?.doubt === undefined ? [] : [site.doubt]),
    ...(zoneIsTold ? [] : zoneDoubts(map, head)),
  ];
  parseSourceMap(JSON.stringify(map), 'the draft');
  return {
    map,
    content: found.content,
    unsure: distinct(unsure),
    leftOut: [...found.tables.flatMap((table) => table.leftOut ?? []), ...leftOutOf(notes, head)],
  };
}

function draftTable(
  views: readonly ColumnView[],
  style: NumberStyle,
  context: DraftContext,
  head: HeadFacts,
  extra: Pick<WrittenEntry, 'part' | 'only'>,
): DraftedTable {
  const records = recordTableOf(views);
  if (records !== undefined) return recordEntries(records, views, style, context, head, extra);
  const channels = looksLikeReadings(views, style) ? undefined : channelEntries(views, style, context, head, extra);
  return channels ?? readingsEntries(views, style, context, head, extra);
}

/** Where a table of the file lists one job only, the others are about it: its id stands there once for all of them. */
function nameOnlyJob(tables: readonly { table: DraftTable; views: readonly ColumnView[] }[], head: HeadFacts): void {
  if (head.job.has('job_id')) return;
  for (const { table, views } of tables) {
    const place = views.findIndex((view) => meaningByName('jobs', view)?.column.name === 'job_id');
    const [id, ...others] = views[place]?.texts ?? [];
    if (recordTableOf(views) !== 'jobs' || id === undefined || others.length > 0 || table.firstLine === undefined)
      continue;
    head.head.job = { line: table.firstLine, cell: place + 1 };
    const text = `taken for the only job of the file's list, by its place: line ${table.firstLine}, cell ${place + 1} ("${id}")`;
    head.job.set('job_id', { cell: { head: 'job' }, doubts: [{ at: '', text }] });
  }
}

function contextOf(
  views: readonly ColumnView[],
  units: ReadonlyMap<Dimension, AnyUnitName>,
  nested: boolean,
): DraftContext {
  const bare = views.filter((view) => {
    if (view.units.some((unit) => unit.unit !== undefined)) return false;
    const column = (meaningByName('readings', view) ?? meaningByValues(view, new Set()))?.column;
    return column?.unit === '°C';
  });
  return { units, bareTemperatures: bare.flatMap((view) => view.numbers), nested };
}

/** The air that gauge pressures count from. */
function siteOf(
  entries: readonly EntryDraft[],
  notes: readonly DraftNotes[],
  head: HeadFacts,
): { map: NonNullable<WrittenMap['site']>; doubt?: Doubt } | undefined {
  const isGauge =
    [...head.job.values()].some((cell) => cell.isGauge) ||
    entries.some((entry) => [...entry.columns.values()].some((cell) => cell.isGauge));
  if (!isGauge && !notes.some((note) => note.needsSite)) return undefined;
  const altitude = head.job.get('altitude_m')?.cell;
  if (altitude !== undefined) return { map: { altitude_m: altitude } as NonNullable<WrittenMap['site']> };
  const text =
    'gauge pressures count from the air around the gauge: set the height of the site above the sea, in metres; 0 is only a stand-in (at 1600 m absolute pressures would come in 17 kPa too high)';
  return { map: { altitude_m: { constant: 0 } }, doubt: { where: 'site.altitude_m.constant', text } };
}

function writtenMap(
  name: string,
  found: FoundTables,
  style: NumberStyle,
  entries: readonly EntryDraft[],
  notes: readonly DraftNotes[],
  head: HeadFacts,
  timeZone: string,
  site: WrittenMap['site'],
): WrittenMap {
  const [only] = found.tables;
  const parts = Object.fromEntries(found.tables.map(({ layout }, index) => [`part-${index + 1}`, layout]));
  const rows = entries.map((entry) => entry.written());
  const needsZone = notes.some((note) => note.needsZone);
  const nulls = [...new Set(notes.flatMap((note) => [...note.nullWords]))].toSorted();
  const overs = [...new Set(notes.flatMap((note) => [...note.overWords]))].toSorted();
  const isText = found.kind === 'csv';
  const usedHeads = Object.entries(head.head).filter(([key]) =>
    JSON.stringify([rows, site]).includes(`{"head":"${key}"`),
  );
  return {
    name: mapName(name),
    ...(found.mark === undefined && found.file.kind === undefined ? {} : { looks_like: looksLike(name, found) }),
    file: {
      ...found.file,
      ...(isText || found.kind === 'xlsx' ? decimalsOf(style) : {}),
      ...(found.tables.length === 1 ? only.layout : {}),
    },
    ...(found.tables.length > 1 ? { parts } : {}),
    ...(usedHeads.length > 0 ? { head: Object.fromEntries(usedHeads) } : {}),
    ...(needsZone ? { time_zone: zoneTold(head) ?? timeZone } : {}),
    ...(site === undefined ? {} : { site }),
    ...(nulls.length > 0 ? { null_words: nulls } : {}),
    ...(overs.length > 0 ? { over_words: overs } : {}),
    rows,
  };
}

function looksLike(name: string, { mark, file }: FoundTables): NonNullable<WrittenMap['looks_like']> {
  // Where the extension promises another kind of file, the map must ask for the extension.
  const extension = /\.[A-Za-z0-9]+$/.exec(name.replace(/\.gz$/i, ''))?.[0];
  return {
    ...(file.kind !== undefined && extension !== undefined ? { file_name: `*${extension}` } : {}),
    ...(mark === undefined ? {} : { has: [mark] }),
  };
}

function decimalsOf({ decimal, thousands }: NumberStyle): {
  decimal?: ',';
  thousands?: NonNullable<NumberStyle['thousands']>;
} {
  return { ...(decimal === ',' ? { decimal } : {}), ...(thousands === undefined ? {} : { thousands }) };
}

function styleDoubts({ doubtful, thousands }: NumberStyle): Doubt[] {
  if (doubtful === undefined) return [];
  const taken = thousands === undefined ? 'with decimals' : 'as a whole number with its thousands apart';
  const text = `"${doubtful}" may be read in two ways; it is taken ${taken}. See "decimal" and "thousands"`;
  return [{ where: 'file.decimal', text }];
}

function zoneTold({ zone }: HeadFacts): string | undefined {
  return zone === undefined ? undefined : zoneOfWords(zone);
}

function zoneDoubts({ time_zone: zone }: WrittenMap, head: HeadFacts): Doubt[] {
  if (zone === undefined || zoneTold(head) !== undefined) return [];
  const told = head.zone === undefined ? '' : ` (the file says "${head.zone}", which is no zone that is known here)`;
  return [
    {
      where: 'time_zone',
      text: `the times tell no zone${told}; ${zone}, that of this machine, is only a guess: put where the clocks stood, such as America/Denver`,
    },
  ];
}

function leftOutOf(notes: readonly DraftNotes[], { unused }: HeadFacts): LeftOut[] {
  return [
    ...notes.flatMap((note) => note.leftOut),
    ...unused.map((what) => ({ what, why: 'it stands beside the table, and nothing here takes it' })),
  ];
}

function distinct(doubts: readonly Doubt[]): Doubt[] {
  return doubts.filter(
    ({ where, text }, index) => doubts.findIndex((other) => other.where === where && other.text === text) === index,
  );
}

/** A name for messages: that of the file, without what differs from export to export. */
function mapName(name: string): string {
  const stem = name.replace(/\.gz$/i, '').replace(/\.[^.]*$/, '');
  const words = stem
    .toLowerCase()
    .replaceAll(/[^\p{L}\d]+/gu, '-')
    .replaceAll(/(?:^|-)\d[\d-]*(?=-|$)/g, '')
    .replaceAll(/^-+|-+$/g, '');
  return words === '' ? 'drafted-map' : words;
}
