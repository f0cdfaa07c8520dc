import { type JobCurve, jobCurves } from '../facts/recording/job-curves.ts';
import { type CurveMatch, curveMatches } from '../records/tables/curve-matches.ts';
import type { CurveRange } from '../store/curve-prints.ts';
import { streamJobReadings } from '../store/job-stream.ts';
import { RowAppender } from '../store/row-appender.ts';
import type { Store } from '../store/store.ts';
import { type PressureCurve, pressureCurve } from '../traces/curve/pressure-curve.ts';
import { sameCurve } from '../traces/curve/same-curve.ts';
import { type CurveCandidate, curveCandidates, type OnCurves } from './curve-candidates.ts';

/** Pairs whose readings are held beside each other at once. */
const batchPairs = 200;

/** A curve as the catalogue names it. */
interface NamedCurve extends Pick<JobCurve, 'column' | 'gauge'> {
  readonly jobId: string;
}

interface NamedPair {
  readonly one: NamedCurve;
  readonly two: NamedCurve;
  readonly shiftRows: number;
}

/**
 * Finds the curves among `latest` that stand in another job too, by their prints first and then by their readings, and
 * writes the table of matches.
 *
 * @returns how many were found
 */
export async function findCurveMatches(store: Store, latest: CurveRange, onProgress?: OnCurves): Promise<number> {
  let found = 0;
  for await (const candidates of curveCandidates(store, latest, onProgress)) {
    for (let start = 0; start < candidates.length; start += batchPairs) {
      const pairs = await namedPairs(store, candidates.slice(start, start + batchPairs));
      const matches = await verified(store, pairs);
      await append(store, matches);
      found += matches.length;
    }
  }
  return found;
}

async function append(store: Store, matches: readonly CurveMatch[]): Promise<void> {
  const appender = await RowAppender.begin(store, curveMatches);
  try {
    for (const match of matches) appender.append(match);
    appender.end();
  } catch (error) {
    appender.abandon();
    throw error;
  }
}

/** The jobs behind candidates, the first by its id first; two curves of one job are no match. */
async function namedPairs(store: Store, candidates: readonly CurveCandidate[]): Promise<NamedPair[]> {
  await store.fillRows(
    'named_curves',
    { curve_id: 'BIGINT' },
    [...new Set(candidates.flatMap(({ one, two }) => [one, two]))].map((id) => [id]),
  );
  const rows = await store.rows<{ id: number; job_id: string; column_name: JobCurve['column']; gauge: string | null }>(
    'SELECT curve_id AS id, job_id, column_name, gauge FROM curves SEMI JOIN temp.named_curves USING (curve_id)',
  );
  const named = new Map<number, NamedCurve>(
    rows.map(({ id, job_id: jobId, column_name: column, gauge }) => [id, { jobId, column, gauge }]),
  );
  return candidates.flatMap(({ one, two, shiftRows }) => {
    const [a, b] = [named.get(one), named.get(two)];
    if (a === undefined || b === undefined || a.jobId === b.jobId) return [];
    return a.jobId < b.jobId ? { one: a, two: b, shiftRows } : { one: b, two: a, shiftRows: -shiftRows };
  });
}

async function verified(store: Store, pairs: readonly NamedPair[]): Promise<CurveMatch[]> {
  await store.fill('pair_jobs', new Set(pairs.flatMap(({ one, two }) => [one.jobId, two.jobId])));
  const nameOf = ({ jobId, column, gauge }: NamedCurve) => JSON.stringify([jobId, column, gauge]);
  const wanted = new Set(pairs.flatMap(({ one, two }) => [nameOf(one), nameOf(two)]));
  const curves = new Map<string, PressureCurve>();
  for await (const { jobId, ...readings } of streamJobReadings(store, 'pair_jobs')) {
    for (const { elapsedS, pa, ...rest } of jobCurves(readings)) {
      const name = nameOf({ jobId, ...rest });
      if (wanted.has(name)) curves.set(name, pressureCurve(elapsedS, pa));
    }
  }
  return pairs.flatMap(({ one, two, shiftRows }) => {
    const [a, b] = [curves.get(nameOf(one)), curves.get(nameOf(two))];
    const same = a && b && sameCurve(a, b, shiftRows);
    if (same === undefined) return [];
    return {
      job_id: one.jobId,
      other_job_id: two.jobId,
      column_name: one.column,
      ...(one.gauge === null ? {} : { gauge: one.gauge }),
      other_column_name: two.column,
      ...(two.gauge === null ? {} : { other_gauge: two.gauge }),
      matched_readings: same.rows,
      share_ratio: same.share,
      from_s: same.fromS,
      to_s: same.toS,
      shift_s: same.shiftS,
      scale_ratio: same.scaleRatio,
      scatter_ratio: same.scatterRatio,
      sigma: same.sigma,
    };
  });
}
