import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { fuzzRun } from './fuzz-run.ts';

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
