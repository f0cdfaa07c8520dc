import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Store } from '../../../src/store/store.ts';
import { plantedJobs } from '../../copies/copied-fleet.ts';
import { comparedShare, copiesClaims } from '../../copies/copies-claims.ts';
import { type CopiesRun, copiesRun } from '../../copies/copies-run.ts';
import { part } from './part.ts';

/** How surely a curve that stands in two jobs is found, and how rarely two honest jobs are matched. */
export const copies = part({
  name: 'copies',
  title: 'Curves that stand in two jobs',
  sizes: {
    small: { jobs: 1000, planted: 30, steps: 2 },
    full: { jobs: 150_000, planted: 500, steps: 4 },
  },
  fullS: 530,
  async run({ jobs, planted, steps }, seed, onProgress) {
    const fleet = { seed, jobs, planted };
    const all = jobs + plantedJobs(fleet).length;
    const folder = mkdtempSync(join(tmpdir(), 'dryhold-copies-'));
    try {
      const store = await Store.open(join(folder, 'store'), 'write');
      const found = await copiesRun(store, fleet, all, Math.ceil(all / steps), onProgress);
      await store.close();
      return {
        drawn: `${jobs} honest jobs and ${all - jobs} copies`,
        claims: copiesClaims(fleet, found),
        tables: [
          {
            title: 'Curves that could be compared',
            heads: ['curves', 'share'],
            rows: Object.entries(comparedShare(fleet, found)).map(([name, share]) => [
              name,
              `${(100 * share).toFixed(1)} %`,
            ]),
          },
        ],
        notes: costs(found, all),
      };
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  },
});

function costs({ curves, readings, printSeconds, candidates, steps }: CopiesRun, all: number): string[] {
  return [
    `${curves} curves of ${readings} readings; prints ${((printSeconds / readings) * 1e9).toFixed(0)} ns a reading, ` +
      `${((printSeconds / all) * 1000).toFixed(2)} ms a job; ${candidates} candidates`,
    ...steps.map(
      ({ jobs, latest, seconds, cpuSeconds }) =>
        `search among ${jobs} jobs for copies of the latest ${latest}: ${seconds.toFixed(1)} s, ${cpuSeconds.toFixed(1)} s CPU, ` +
        `${((cpuSeconds / latest) * 1e6).toFixed(0)} µs CPU a job`,
    ),
    `most memory ${(process.resourceUsage().maxRSS / 1024).toFixed(0)} MiB`,
  ];
}
