import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { ingest } from '../../src/steps/ingest.ts';
import type { Store } from '../../src/store/store.ts';
import { ingestFiles, inStore, tempFolder, unbalanced, writeFiles } from '../store/temp-store.ts';

/** One delivery: a file of readings, by itself in a bundle or through a map. */
interface Delivery {
  file: string;
  text: string;
  map?: object;
  /** What becomes of its rows: kept, repeated, refused. */
  book: [kept: number, repeated: number, refused: number];
}

interface Case {
  title: string;
  deliveries: Delivery[];
  /** What the store has afterwards: job, gauge, seconds, vacuum, scale, clamp, mark. */
  stored: string[];
  revisions: Record<string, number>;
}

const header = 'job_id,gauge,elapsed_s,vacuum_pa,scale_kg,line_c,phase_mark\n';

/** A CSV of readings, one text of comma-separated cells a row. */
function rows(...cells: string[]): string {
  return header + cells.map((row) => `${row}${','.repeat(6 - row.split(',').length + 1)}\n`).join('');
}

async function stored(store: Store): Promise<string[]> {
  const found =
    await store.rows(`SELECT job_id, gauge, elapsed_s::FLOAT AS s, vacuum_pa, scale_kg, line_c, phase_mark FROM readings
    ORDER BY job_id, elapsed_s, gauge`);
  return found.map((row) =>
    Object.values(row)
      .map((value) => String((value as string | number | null) ?? ''))
      .join(',')
      .replace(/,+$/, ''),
  );
}

async function revisions(store: Store): Promise<Record<string, number>> {
  const found = await store.rows<{ job_id: string; revision: number }>('FROM job_revisions ORDER BY job_id');
  return Object.fromEntries(found.map((row) => [row.job_id, row.revision]));
}

async function deliver(store: Store, { file, text, map }: Omit<Delivery, 'book'>) {
  if (map === undefined) return (await ingestFiles(store, { [`readings/${file}`]: text })).sources;
  const folder = writeFiles(tempFolder(), { [file]: text, 'map.json': JSON.stringify(map) });
  return (await ingest(store, [join(folder, file)], { map: join(folder, 'map.json') })).sources;
}

const units: Record<string, string> = { vacuum_pa: 'Pa', scale_kg: 'kg', line_c: 'C' };

/** A map of a log with a time column, in a unit, and one value. */
function logMap(name: string, unit: string, value: string, job = 'J'): object {
  return {
    name,
    rows: [
      {
        table: 'readings',
        columns: {
          job_id: { constant: job },
          elapsed_s: { column: 'Time', unit },
          [value]: { column: 'Value', unit: units[value] },
        },
      },
    ],
  };
}

const half = ['J,,0,900', 'J,,10,500', 'J,,20,300', 'J,,30,200'];
const otherHalf = ['J,,20,300', 'J,,30,200', 'J,,40,150', 'J,,50,120'];
const whole = ['J,,0,900', 'J,,10,500', 'J,,20,300', 'J,,30,200', 'J,,40,150', 'J,,50,120'];

const cases: Case[] = [
  {
    title: 'R2, R3: the logs of two instruments make one job, and either again changes nothing',
    deliveries: [
      { file: 'vacuum.csv', text: rows('J,,0,900', 'J,,10,500', 'J,,20,300'), book: [3, 0, 0] },
      { file: 'scale.csv', text: rows('J,,10,,5', 'J,,15,,4', 'J,,25,,3'), book: [3, 0, 0] },
      { file: 'vacuum.csv', text: rows('J,,0,900', 'J,,10,500', 'J,,20,300', 'X,,0,1'), book: [1, 3, 0] },
      { file: 'again.csv', text: rows('J,,10,,5', 'J,,25,,3'), book: [0, 2, 0] },
    ],
    stored: ['J,,0,900', 'J,,10,500,5', 'J,,15,,4', 'J,,20,300', 'J,,25,,3', 'X,,0,1'],
    revisions: { J: 2, X: 1 },
  },
  {
    title: 'R3: the second half of an export joins the first; the rows of both are repeated',
    deliveries: [
      { file: '1.csv', text: rows(...half), book: [4, 0, 0] },
      { file: '2.csv', text: rows(...otherHalf), book: [2, 2, 0] },
    ],
    stored: whole,
    revisions: { J: 2 },
  },
  {
    title: 'R3: the halves in the other order',
    deliveries: [
      { file: '2.csv', text: rows(...otherHalf), book: [4, 0, 0] },
      { file: '1.csv', text: rows(...half), book: [2, 2, 0] },
    ],
    stored: whole,
    revisions: { J: 2 },
  },
  {
    title: 'R3: a hole in the later export, where a row was refused, takes nothing away',
    deliveries: [
      { file: '1.csv', text: rows(...half), book: [4, 0, 0] },
      { file: '2.csv', text: rows('J,,10,500', 'J,,20,wet', 'J,,30,200', 'J,,40,150', 'J,,50,120'), book: [2, 2, 1] },
    ],
    stored: whole,
    revisions: { J: 2 },
  },
  {
    title: 'R3: a row that only the later one has is new, and takes nothing away either',
    deliveries: [
      { file: '1.csv', text: rows('J,,0,900,,20', 'J,,20,300,,22', 'J,,30,200'), book: [3, 0, 0] },
      { file: '2.csv', text: rows('J,,10,500,,21', 'J,,20,300'), book: [1, 1, 0] },
    ],
    stored: ['J,,0,900,,20', 'J,,10,500,,21', 'J,,20,300,,22', 'J,,30,200'],
    revisions: { J: 2 },
  },
  {
    title: 'R3: what lies in the gap of a log comes from another file, whichever comes first',
    deliveries: [
      { file: 'gap.csv', text: rows('J,,0,900', 'J,,10,500', 'J,,40,150', 'J,,50,120'), book: [4, 0, 0] },
      { file: 'filling.csv', text: rows('J,,20,300', 'J,,30,200'), book: [2, 0, 0] },
      { file: 'gap-K.csv', text: rows('K,,20,300'), book: [1, 0, 0] },
      { file: 'gap-K2.csv', text: rows('K,,0,900', 'K,,50,120'), book: [2, 0, 0] },
    ],
    stored: [...whole, 'K,,0,900', 'K,,20,300', 'K,,50,120'],
    revisions: { J: 2, K: 2 },
  },
  {
    title: 'R5: an export under its name again, longer by a piece, and the job grows by that',
    deliveries: [
      { file: 'log.csv', text: rows(...half), book: [4, 0, 0] },
      { file: 'log.csv', text: rows(...whole), book: [2, 4, 0] },
    ],
    stored: whole,
    revisions: { J: 2 },
  },
  {
    title: 'R4: a corrected value under another name counts; what the correction does not have stays',
    deliveries: [
      { file: 'log.csv', text: rows('J,,0,900,,21', 'J,,10,999', 'J,,20,300,,22', 'J,,30,200'), book: [4, 0, 0] },
      { file: 'mended.csv', text: rows('J,,10,500', 'J,,20,300'), book: [1, 1, 0] },
    ],
    stored: ['J,,0,900,,21', 'J,,10,500', 'J,,20,300,,22', 'J,,30,200'],
    revisions: { J: 2 },
  },
  {
    title: 'R4: corrected under another name with fewer rows: its stretch is its own, other columns and times stay',
    deliveries: [
      {
        file: 'log.csv',
        text: rows('J,,0,900', 'J,,10,999,2', 'J,,15,400', 'J,,20,300', 'J,,30,200'),
        book: [5, 0, 0],
      },
      { file: 'mended.csv', text: rows('J,,10,500', 'J,,20,300'), book: [1, 1, 0] },
    ],
    stored: ['J,,0,900', 'J,,10,500,2', 'J,,20,300', 'J,,30,200'],
    revisions: { J: 2 },
  },
  {
    title:
      'R4: the same log with its times rounded replaces it, with the marks that stand alone; the other column stays',
    deliveries: [
      { file: 'fine.csv', text: rows('J,,0,900', 'J,,10.2,500', 'J,,15.4,,,,hold', 'J,,20.4,300'), book: [4, 0, 0] },
      { file: 'scale.csv', text: rows('J,,10.2,,5'), book: [1, 0, 0] },
      { file: 'rounded.csv', text: rows('J,,0,900', 'J,,10,500', 'J,,15,,,,hold', 'J,,21,300'), book: [3, 1, 0] },
    ],
    stored: ['J,,0,900', 'J,,10,500', 'J,,10.199999809265137,,5', 'J,,15,,,,hold', 'J,,21,300'],
    revisions: { J: 3 },
  },
  {
    title: 'R4: what one gauge corrects is no word about the other',
    deliveries: [
      { file: 'both.csv', text: rows('J,g,0,1', 'J,h,0,5', 'J,g,10,2', 'J,h,10,6', 'J,,10,7'), book: [5, 0, 0] },
      { file: 'g.csv', text: rows('J,g,0,1', 'J,g,10,3'), book: [1, 1, 0] },
    ],
    stored: ['J,g,0,1', 'J,h,0,5', 'J,g,10,3', 'J,h,10,6', 'J,,10,7'],
    revisions: { J: 2 },
  },
  {
    title: 'R5: a file under its own name is believed in all it says, with fewer rows too; other files keep their part',
    deliveries: [
      { file: 'log.csv', text: rows('J,,0,900', 'J,,10,500', 'J,,15,400', 'K,,0,1'), book: [4, 0, 0] },
      { file: 'scale.csv', text: rows('J,,10,,5', 'J,,12,,4'), book: [2, 0, 0] },
      { file: 'log.csv', text: rows('J,,0,900', 'J,,15,401'), book: [1, 1, 0] },
    ],
    stored: ['J,,0,900', 'J,,10,,5', 'J,,12,,4', 'J,,15,401', 'K,,0,1'],
    revisions: { J: 3, K: 1 },
  },
  {
    title: 'R5: what another file feeds as well stays where one of the two no longer has it',
    deliveries: [
      { file: '1.csv', text: rows(...half), book: [4, 0, 0] },
      { file: '2.csv', text: rows(...otherHalf), book: [2, 2, 0] },
      { file: '1.csv', text: rows('J,,0,900'), book: [0, 1, 0] },
    ],
    stored: ['J,,0,900', ...otherHalf],
    revisions: { J: 3 },
  },
  {
    title: 'R5: a row that is good now is new, all others are repeated',
    deliveries: [
      { file: 'log.csv', text: rows('J,,0,900', 'J,,10,wet', 'J,,20,300', 'K,,0,1'), book: [3, 0, 1] },
      { file: 'log.csv', text: rows('J,,0,900', 'J,,10,500', 'J,,20,300', 'K,,0,1'), book: [1, 3, 0] },
    ],
    stored: ['J,,0,900', 'J,,10,500', 'J,,20,300', 'K,,0,1'],
    revisions: { J: 2, K: 1 },
  },
  {
    title: 'R5: a map mended, s for min, moves the log, and the other instrument stays',
    deliveries: [
      { file: 'scale.csv', text: rows('J,,20,,5', 'J,,240,,4'), book: [2, 0, 0] },
      {
        file: 'log.csv',
        text: 'Time,Value\n0,900\n2,500\n4,300\n',
        map: logMap('v', 'min', 'vacuum_pa'),
        book: [3, 0, 0],
      },
      {
        file: 'log.csv',
        text: 'Time,Value\n0,900\n2,500\n4,300\n',
        map: logMap('v', 's', 'vacuum_pa'),
        book: [2, 1, 0],
      },
    ],
    stored: ['J,,0,900', 'J,,2,500', 'J,,4,300', 'J,,20,,5', 'J,,240,,4'],
    revisions: { J: 3 },
  },
  {
    title:
      'R5: the same bytes under a map with the right job, and under another name: the wrong job has no readings left',
    deliveries: [
      { file: 'log.csv', text: 'Time,Value\n0,900\n', map: logMap('v', 's', 'vacuum_pa', 'wrong'), book: [1, 0, 0] },
      { file: 'copy.csv', text: 'Time,Value\n0,900\n', map: logMap('w', 's', 'vacuum_pa'), book: [1, 0, 0] },
    ],
    stored: ['J,,0,900'],
    revisions: { J: 1, wrong: 2 },
  },
  {
    title: 'two instruments call their files alike, and their maps differ: neither is the other again',
    deliveries: [
      { file: 'J.csv', text: 'Time,Value\n0,900\n', map: logMap('gauge', 's', 'vacuum_pa'), book: [1, 0, 0] },
      { file: 'J.csv', text: 'Time,Value\n0,5\n', map: logMap('scale', 's', 'scale_kg'), book: [1, 0, 0] },
    ],
    stored: ['J,,0,900,5'],
    revisions: { J: 2 },
  },
  {
    title: 'an export of the last days keeps its name and drops older jobs: these stay',
    deliveries: [
      { file: 'export.csv', text: rows('J,,0,900', 'K,,0,1'), book: [2, 0, 0] },
      { file: 'export.csv', text: rows('K,,0,1', 'L,,0,2'), book: [1, 1, 0] },
      { file: 'export.csv', text: rows('J,,0,901'), book: [1, 0, 0] },
    ],
    stored: ['J,,0,901', 'K,,0,1', 'L,,0,2'],
    revisions: { J: 2, K: 1, L: 1 },
  },
  {
    title: 'R5 after R4: what a wrong map pushed out is no longer claimed, so nothing of the wrong map is left',
    deliveries: [
      { file: 'clamp.csv', text: rows('J,,0,,,20', 'J,,50,,,21', 'J,,100,,,22', 'J,,200,,,23'), book: [4, 0, 0] },
      { file: 'log.csv', text: 'Time,Value\n0,30\n1,31\n2,32\n', map: logMap('v', 'min', 'line_c'), book: [3, 0, 0] },
      { file: 'log.csv', text: 'Time,Value\n0,30\n1,31\n2,32\n', map: logMap('v', 's', 'line_c'), book: [2, 1, 0] },
    ],
    stored: ['J,,0,,,30', 'J,,1,,,31', 'J,,2,,,32', 'J,,200,,,23'],
    revisions: { J: 3 },
  },
];

describe('readings of a job from several files', () => {
  test.each(cases)('$title', ({ deliveries, stored: expected, revisions: expectedRevisions }) =>
    inStore(join(tempFolder(), 'store'), async (store) => {
      for (const { book, ...delivery } of deliveries) {
        const [source] = await deliver(store, delivery);
        expect([source.rows_kept, source.rows_repeated, source.rows_rejected]).toEqual(book);
        expect(source.rows_read).toBe(book[0] + book[1] + book[2]);
        expect(await unbalanced(store)).toEqual([]);
        // A job lives in one segment, and its listing says where.
        const listed = await store.rows(
          'SELECT job_id, sum(rows)::BIGINT AS n FROM segment_jobs GROUP BY ALL ORDER BY ALL',
        );
        expect(await store.rows('SELECT job_id, count(*) AS n FROM readings GROUP BY ALL ORDER BY ALL')).toEqual(
          listed,
        );
      }
      expect(await stored(store)).toEqual(expected);
      expect(await revisions(store)).toEqual(expectedRevisions);
    }),
  );
});
