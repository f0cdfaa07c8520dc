import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { rowParser } from '../../src/records/row.ts';
import { readings } from '../../src/records/tables/readings.ts';
import { csv } from '../../src/sources/csv.ts';
import { fileDigest } from '../../src/steps/file-digest.ts';
import { writePart } from '../../src/store/reading-part.ts';
import { checkedReadings, csvRelation, readingColumnsOf } from '../../src/store/reading-relation.ts';
import { exported, ingestFiles, inStore, refused, tempFolder, writeFiles } from './temp-store.ts';

describe('the engine and the row-by-row reader agree', () => {
  // Parted by bars, since cells hold everything else.
  const oddNumbers = `1_000| 5 |.5|5.|+5|+-5|1e400|-1e400|1e-400|0x1F|nan|NaN|inf|-inf|Infinity|over| over |OVER`;
  const furtherNumbers = `1e5|1E+5|1e1_0|5f|5 000|5,5|١|\t5|5\u00a0|-0|007|"5"| "5"|"5" |" 5 "|""|"5|5"|'5'|true|0.1`;
  const longNumbers = `0.30000000000000004|1e22|9007199254740993|123456789012345678901234567890|2.2250738585072014e-308|5e-324`;
  const numbers = fc.oneof(
    fc.constantFrom(...[oddNumbers, furtherNumbers, longNumbers].join('|').split('|')),
    fc.double({ min: 0, max: 2e5, noNaN: true }).map(String),
  );
  const oddTexts = `a| a|a |\ta|a\u00a0|\u2003a|"a"| "a"|"a" |" a"|a"b|"a""b"||""| |ä|🙂|a\0b|it's|\\|NULL|null|#a|"a"b`;
  const longTexts = ['x'.repeat(500), 'x'.repeat(501), '🙂'.repeat(251)];
  const texts = fc.constantFrom(...oddTexts.split('|'), ...longTexts);
  const words = fc.constantFrom('', 'cooling', ' cooling', '"cooling"', 'Cooling', 'null');
  const row = fc.tuple(texts, numbers, texts, numbers, words).map((cells) => cells.join(','));

  const header = ['job_id', 'elapsed_s', 'gauge', 'vacuum_pa', 'run_mode'];
  const odd = fc.oneof(
    row,
    fc.tuple(texts, numbers).map(([gauge, number]) => `J,0,${gauge},${number},`),
  );

  test('what the engine takes of odd cells, the row-by-row reader takes with the same values', async () => {
    const folder = tempFolder();
    const path = join(folder, 'readings.csv');
    let taken = 0;
    await inStore(join(folder, 'store'), (store) =>
      fc.assert(
        fc.asyncProperty(odd, async (line) => {
          writeFiles(folder, { 'readings.csv': `${header.join(',')}\n${line}\n` });
          const { oddText, oddNumbers } = await fileDigest(path);
          if (oddText) return;
          const select = checkedReadings(csvRelation(path, header), readingColumnsOf(header), {
            isText: () => true,
            oddNumbers,
          });
          const part = { path: join(folder, 'part.parquet'), fileNumber: 0, columns: header };
          const rows = await writePart(store, select, part).catch(() => undefined);
          if (rows === undefined) return;
          taken += 1;
          const byEngine = await store.rows(`SELECT ${header.join(', ')} FROM read_parquet('${part.path}')`);
          const source = await csv.rows(path, {});
          const parse = rowParser(readings);
          const byRow = [];
          for await (const { cells, problem } of source.rows) {
            const raw = Object.fromEntries(header.map((name, index) => [name, cells?.[index]]));
            const parsed = parse(raw);
            byRow.push(problem ?? ('row' in parsed ? parsed.row : parsed.problem));
          }
          const kept = byEngine.map((values) =>
            Object.fromEntries(
              Object.entries(values).flatMap(([name, value]) =>
                value === null ? [] : [[name, value === Number.POSITIVE_INFINITY ? 'over' : value]],
              ),
            ),
          );
          expect(byRow).toEqual(kept);
        }),
        { numRuns: 200, seed: 3 },
      ),
    );
    expect(taken).toBeGreaterThan(15);
  });

  test('on files as a whole, alone and beside a row that is wrong', async () => {
    await fc.assert(
      fc.asyncProperty(odd, async (line) => {
        const outcomes = [];
        for (const after of ['', 'wrong,row,,,\n']) {
          outcomes.push(
            await inStore(join(tempFolder(), 'store'), async (store) => {
              const content = `${header.join(',')}\n${line}\n${after}`;
              const { refusedFiles } = await ingestFiles(store, { 'readings.csv': content });
              const rejects = (await refused(store)).filter((reject) => reject.line !== 3);
              return { readings: await exported(store, 'readings'), rejects, refusedFiles };
            }),
          );
        }
        expect(outcomes[0]).toEqual(outcomes[1]);
      }),
      { numRuns: 10, seed: 3 },
    );
  });
});
