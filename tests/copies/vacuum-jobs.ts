import type { JobCurve } from '../../src/facts/recording/job-curves.ts';
import { type HonestCurve, honestLog, kindOf } from './honest-log.ts';

/** Vacuum curves of honest jobs of some length, by job. */
export function vacuumJobs(seed: number, count: number): Map<string, HonestCurve> {
  const jobs = new Map<string, HonestCurve>();
  for (let number = 1; jobs.size < count; number += 1) {
    const vacuum = honestLog(seed, number).find(({ column, pa }) => column === 'vacuum_pa' && pa.length > 300);
    if (kindOf(number) !== 'quiet' && vacuum !== undefined) jobs.set(`honest-${jobs.size + 1}`, vacuum);
  }
  return jobs;
}

/** Vacuum curves by job as a file of readings. */
export function vacuumCsv(jobs: ReadonlyMap<string, Pick<JobCurve, 'elapsedS' | 'pa'>>): string {
  const rows: string[] = [];
  for (const [id, { elapsedS, pa }] of jobs)
    for (const [row, value] of pa.entries())
      if (!Number.isNaN(value)) rows.push(`${id},${elapsedS[row]},${Number.isFinite(value) ? value : 'over'}`);
  return `job_id,elapsed_s,vacuum_pa\n${rows.join('\n')}\n`;
}
