import { join } from 'node:path';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Store } from '../../src/store/store.ts';
import { ingestFiles, inStore, tempFolder, unbalanced } from '../store/temp-store.ts';

/** What logs: of which job, as which gauge, into which column, and when. */
const instruments = [
  { job: 'J', gauge: 'g', column: 'vacuum_pa' },
  { job: 'J', gauge: 'g', column: 'line_c' },
  { job: 'J', gauge: '', column: 'scale_kg' },
  { job: 'J', gauge: '', column: 'vacuum_pa' },
  { job: 'K', gauge: 'h', column: 'vacuum_pa' },
];
const columns = ['vacuum_pa', 'line_c', 'scale_kg'];

/** The cells of a store or file: `job,seconds,gauge` to the values of the three columns. */
type Cells = Map<string, Record<string, number>>;

/** A whole stretch of each instrument's log, or none of it. */
function cellsOf(times: number[][], windows: ([number, number] | null)[]): Cells {
  const cells: Cells = new Map();
  for (const [index, { job, gauge, column }] of instruments.entries()) {
    const [from, to] = windows[index] ?? [1, 0];
    for (const time of times[index].filter((it) => it >= from && it <= to)) {
      const key = `${job},${time},${gauge}`;
      cells.set(key, { ...cells.get(key), [column]: index * 100 + time });
    }
  }
  return cells;
}

function csvOf(cells: Cells, lineEnd: string): string {
  const rows = [...cells].map(([key, values]) => [key, ...columns.map((name) => values[name] ?? '')].join(','));
  return [`job_id,elapsed_s,gauge,${columns.join(',')}`, ...rows, ''].join(lineEnd);
}

async function storedCells(store: Store): Promise<string[]> {
  const rows = await store.rows(`SELECT job_id, elapsed_s, gauge, ${columns.join(', ')} FROM readings`);
  return rows
    .map((row) =>
      Object.values(row)
        .map((value) => String((value as string | number | null) ?? ''))
        .join(','),
    )
    .sort();
}

const times = fc.uniqueArray(fc.integer({ min: 0, max: 12 }), { maxLength: 10 });
const windows = fc
  .tuple(fc.integer({ min: 0, max: 12 }), fc.integer({ min: 0, max: 12 }))
  .map(([a, b]): [number, number] => [Math.min(a, b), Math.max(a, b)]);

test('however logs are split into files and in whatever order these come, the readings are the same; again, nothing changes', async () => {
  let joined = 0;
  await fc.assert(
    fc.asyncProperty(
      fc.tuple(...instruments.map(() => times)),
      fc.array(fc.tuple(...instruments.map(() => fc.option(windows))), { minLength: 2, maxLength: 5 }),
      fc.nat(4),
      async (logs, files, again) => {
        const contents = files.map((file) => cellsOf(logs, file));
        const all: Cells = new Map();
        for (const cells of contents) for (const [key, values] of cells) all.set(key, { ...all.get(key), ...values });
        const expected = csvOf(all, '\n').trim().split('\n').slice(1).sort();
        await inStore(join(tempFolder(), 'store'), async (store) => {
          for (const [index, cells] of contents.entries())
            await ingestFiles(store, { [`readings/${index}.csv`]: csvOf(cells, '\n') });
          expect(await storedCells(store)).toEqual(expected);
          const revisions = await store.rows('FROM job_revisions ORDER BY ALL');
          if (revisions.some(({ revision }) => (revision as number) > 1)) joined += 1;
          const index = again % contents.length;
          // Other bytes that say the same: under its own name it is the file again, under another name a copy of it.
          const copies = {
            [`${index}`]: csvOf(contents[index], '\r\n'),
            another: `${csvOf(contents[index], '\r\n')}\r\n`,
          };
          for (const [name, text] of Object.entries(copies)) {
            const { sources } = await ingestFiles(store, { [`readings/${name}.csv`]: text });
            expect(sources).toMatchObject([
              { rows_read: contents[index].size, rows_repeated: contents[index].size, rows_kept: 0 },
            ]);
          }
          expect(await storedCells(store)).toEqual(expected);
          expect(await store.rows('FROM job_revisions ORDER BY ALL')).toEqual(revisions);
          expect(await unbalanced(store)).toEqual([]);
        });
      },
    ),
    { numRuns: 25, seed: 20_260_305 },
  );
  // Most of the drawn files share a job with another one.
  expect(joined).toBeGreaterThan(12);
}, 120_000);
