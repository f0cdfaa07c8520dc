import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { tempFolder } from '../store/temp-store.ts';
import { drawCase } from './draw-case.ts';
import { fuzzRun } from './fuzz-run.ts';
import { sampleFiles } from './sample-files.ts';
import { takeCases } from './take-cases.ts';

// `npm run fuzz -- --only N` takes one of these files in again, and says what it is.
test('of 2,000 hostile files none ends the program, holds it up, or is miscounted', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'dryhold-fuzz-'));
  try {
    const { findings, files, rows } = await fuzzRun({ seed: 1, first: 0, count: 2000, folder });
    expect(findings).toEqual([]);
    // Most are not so broken that nothing is looked into.
    expect(files.taken).toBeGreaterThan(500);
    expect(files.refused).toBeGreaterThan(200);
    expect(rows.kept).toBeGreaterThan(5000);
    expect(rows.read).toBe(rows.kept + rows.rejected + rows.repeated);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}, 300_000);

// Found by runs of 100,000 files; where samples or draws change, these numbers are other files, and that does no harm.
test.each([
  [20, 12_593],
  [20, 42_460],
  [20, 52_519],
  [22, 75_708],
  [22, 97_814],
])('the file %i–%i, which once did what none may do, is taken or refused', async (seed, number) => {
  const taken = await takeCases(tempFolder(), [drawCase(seed, number, await sampleFiles())], () => undefined);
  expect(taken.problems).toEqual([]);
});
