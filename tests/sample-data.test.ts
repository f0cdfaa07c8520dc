import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { differencesOf, expectedOf, mapsOf, sampleRoot, samples } from './samples.ts';

test('there is a sample of every kind of file, each with what must come of it', () => {
  expect(samples).toEqual([
    'brass-lantern',
    'bundle-arrow',
    'bundle-csv',
    'bundle-ndjson',
    'bundle-parquet',
    'charges',
    'glass-hedge',
    'mapped-logs',
    'night-kettle',
    'oak-ledger',
    'packed-meadow',
    'paper-comet',
    'plum-gazette',
    'pressure-tests',
    'slate-otter',
    'stone-parcel',
    'three-drawers',
    'tin-sparrow',
    'two-tongues',
    'velvet-anvil',
  ]);
  for (const sample of samples) expect(existsSync(join(sampleRoot, sample, 'expected.json'))).toBe(true);
});

test('the maps of the samples use every word of the schema, every way to write times, and refuse a row each', () => {
  const known = new Set<string>();
  collect(JSON.parse(readFileSync(new URL('../source-map.schema.json', import.meta.url), 'utf8')), (key, value) => {
    if (key === 'properties') for (const name of Object.keys(value as object)) known.add(name);
    if (key === 'enum' && (value as unknown[]).includes('clock')) for (const word of value as string[]) known.add(word);
  });
  const used = new Set<string>();
  for (const sample of samples) {
    const expected = expectedOf(sample);
    const maps = mapsOf(expected);
    for (const map of maps)
      collect(JSON.parse(readFileSync(join(sampleRoot, sample, map), 'utf8')), (key, value) => {
        used.add(key);
        if (key === 'time' && typeof value === 'string') used.add(value);
      });
    if (maps.length === 0) continue;
    expect({ sample, rejects: expected.rejects }).not.toEqual({ sample, rejects: [] });
  }
  expect([...known].filter((word) => !used.has(word))).toEqual([]);
});

test.each(samples)('%s gives what it says it must give', async (sample) => {
  expect(await differencesOf(sample)).toEqual([]);
});

/** Hears of every member of a JSON value, however deep. */
function collect(value: unknown, hear: (key: string, value: unknown) => void): void {
  if (typeof value !== 'object' || value === null) return;
  for (const [key, member] of Object.entries(value)) {
    hear(key, member);
    collect(member, hear);
  }
}
