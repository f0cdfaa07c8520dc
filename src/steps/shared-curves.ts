import type { SharedCurve } from '../charts/shared-curve-trace.ts';
import { type JobCurve, jobCurves } from '../facts/recording/job-curves.ts';
import type { Facts } from '../records/tables/facts.ts';
import { streamJobReadings } from '../store/job-stream.ts';
import type { Store } from '../store/store.ts';

/** So many readings are shown: few enough that each shows. */
const shownReadings = 60;
/** Times that are rounded differ by less [s]. */
const nearS = 0.15;

/**
 * Of each job in whose facts a match stands, some of the readings that it shares, beside those of the other job.
 *
 * @param facts by job
 */
export async function sharedCurves(
  store: Store,
  facts: ReadonlyMap<string, Partial<Facts>>,
): Promise<Map<string, SharedCurve>> {
  const matched = [...facts].filter(([, { match_job_id }]) => match_job_id !== undefined);
  if (matched.length === 0) return new Map();
  await store.fill(
    'matched_jobs',
    new Set(matched.flatMap(([jobId, { match_job_id }]) => [jobId, match_job_id ?? ''])),
  );
  const curves = new Map<string, JobCurve[]>();
  for await (const { jobId, ...readings } of streamJobReadings(store, 'matched_jobs')) {
    curves.set(jobId, jobCurves(readings));
  }
  const shared = new Map<string, SharedCurve>();
  for (const [jobId, job] of matched) {
    const found = sharedBy(curves.get(jobId) ?? [], curves.get(job.match_job_id ?? '') ?? [], job);
    if (found !== undefined) shared.set(jobId, found);
  }
  return shared;
}

function sharedBy(
  own: readonly JobCurve[],
  others: readonly JobCurve[],
  { match_job_id, match_column, match_start_s, match_s, match_shift_s, match_scale_ratio }: Partial<Facts>,
): SharedCurve | undefined {
  if (match_job_id === undefined || match_start_s === undefined || match_s === undefined) return undefined;
  const rows = own
    .filter(({ column }) => column === match_column)
    .flatMap((one) => others.map((other) => readTogether(one, other, match_shift_s ?? 0, match_scale_ratio ?? 1)))
    .map((pairs) => pairs.filter(([atS]) => atS >= match_start_s && atS <= match_start_s + match_s))
    .toSorted((a, b) => b.length - a.length)[0];
  if (rows === undefined || rows.length < 3) return undefined;
  const shown = levelest(rows);
  return {
    otherJobId: match_job_id,
    isVacuum: match_column === 'vacuum_pa',
    elapsedS: shown.map(([atS]) => atS),
    ownPa: shown.map(([, ownPa]) => ownPa),
    otherPa: shown.map(([, , otherPa]) => otherPa),
  };
}

type Together = readonly [atS: number, ownPa: number, otherPa: number];

/** The readings that both have at the same time, once the other is moved in time and to the same level. */
function readTogether(own: JobCurve, other: JobCurve, shiftS: number, scaleRatio: number): Together[] {
  const together: Together[] = [];
  let at = 0;
  for (const [row, atS] of own.elapsedS.entries()) {
    while (at < other.elapsedS.length && other.elapsedS[at] < atS + shiftS - nearS) at += 1;
    if (at === other.elapsedS.length) break;
    const [ownPa, otherPa] = [own.pa[row], other.pa[at] / scaleRatio];
    const isSame = other.elapsedS[at] <= atS + shiftS + nearS;
    if (isSame && Number.isFinite(ownPa) && Number.isFinite(otherPa)) together.push([atS, ownPa, otherPa]);
  }
  return together;
}

/** The readings in a row between which the pressure moves least. */
function levelest(rows: readonly Together[]): readonly Together[] {
  let best = { from: 0, moves: Number.POSITIVE_INFINITY };
  for (let from = 0; from + shownReadings <= rows.length; from += shownReadings / 4) {
    const levels = rows.slice(from, from + shownReadings).map(([, ownPa]) => Math.log(ownPa));
    const moves = Math.max(...levels) - Math.min(...levels);
    if (moves > 0 && moves < best.moves) best = { from, moves };
  }
  return rows.slice(best.from, best.from + shownReadings);
}
