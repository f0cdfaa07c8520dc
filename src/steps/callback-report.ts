import { callbackFree } from '../fleet/callbacks/callback-free.ts';
import type { CallbackCause } from '../fleet/callbacks/callback-cause.ts';
import { forerunnerLimit } from '../fleet/callbacks/forerunners.ts';
import { preventedCallbacks } from '../fleet/callbacks/revisits.ts';
import type { Skill } from '../fleet/skill.ts';
import { median } from '../numerics/median.ts';
import type { CallbackEntry, CallbackReport, CauseTotals, NamedSkill } from '../pages/callback-data.ts';
import type { Store } from '../store/store.ts';
import { flaggedChecks } from './flagged-checks.ts';
import { type CallbackOptions, type OpenCallbacks, openCallbacks, type SeenCallback } from './open-callbacks.ts';

/** Ages at which shares are told [days]. */
const agesDays = [30, 90, 180, 365];

/**
 * Which callbacks trace to which job, what they come to, how long jobs go without one, and what foretells them.
 *
 * @throws DryholdError `not-judged`
 */
export async function callbackReport(store: Store, options: CallbackOptions): Promise<CallbackReport> {
  options.onProgress?.(0, 4, 'reading jobs and callbacks');
  return callbackReportOf(store, await openCallbacks(store, options), options);
}

/** The same of callbacks that are open. */
export async function callbackReportOf(
  store: Store,
  open: OpenCallbacks,
  { onProgress = () => undefined }: Pick<CallbackOptions, 'onProgress'> = {},
): Promise<CallbackReport> {
  const { fleet, callbacks, followed, period, summary, models } = open;
  const { jobs, codes } = fleet;
  onProgress(1, 4, 'days without a callback');
  const free = callbackFree(
    jobs,
    followed,
    agesDays.filter((age) => age <= period.horizonDays),
  );
  onProgress(2, 4, 'what foretells callbacks');
  const { predictors, within, risk } = models;
  onProgress(3, 4, 'what was found on their jobs');
  return {
    ...summary,
    traced: countBy(callbacks.map(tracedBy)),
    repeats: callbacks.filter(({ isRepeat }) => isRepeat).length,
    causes: causeTotals(callbacks, codes),
    free,
    prevented: preventedCallbacks(followed, open.courses, risk, period.horizonDays),
    limit: forerunnerLimit,
    forerunners:
      within === undefined
        ? null
        : {
            by: predictors.by,
            told: models.forerunners
              .map(({ predictor, ...one }) => ({
                ...one,
                skill: namedSkill(predictor.skill),
                found: predictor.found,
                judged: predictor.judged,
                standsFor: predictor.standsFor.map(namedSkill),
              }))
              .sort((a, b) => a.chance - b.chance),
            tooRare: predictors.tooRare.map(namedSkill),
            beyond: predictors.beyond.map(namedSkill),
          },
    entries: await entriesOf(store, open),
  };
}

/** A skill or a check as an output names it. */
export function namedSkill({ id, title, counts, by }: Skill): NamedSkill {
  return { id, title, counts, by };
}

function tracedBy({ tracedBy: by, isBeyondHorizon }: SeenCallback): CallbackEntry['tracedBy'] {
  return isBeyondHorizon ? 'beyond-horizon' : by;
}

function countBy(all: readonly CallbackEntry['tracedBy'][]): CallbackReport['traced'] {
  const counts = { job: 0, system: 0, 'not-named': 0, 'no-work-before': 0, 'beyond-horizon': 0 };
  for (const one of all) counts[one] += 1;
  return counts;
}

const causeOrder: readonly CallbackCause[] = ['commissioning', 'other', 'unknown'];

function causeTotals(callbacks: readonly SeenCallback[], codes: boolean): CauseTotals[] {
  return causeOrder.map((cause) => {
    const own = callbacks.filter((callback) => callback.cause.cause === cause);
    // Free text may name people; the words that told the cause are of a list.
    const reasons = Map.groupBy(own, ({ causeFound, reason, cause: { words } }) =>
      codes ? words : (causeFound ?? reason ?? ''),
    );
    const days = own.flatMap(({ daysAfter }) => (daysAfter === null ? [] : [daysAfter]));
    return {
      cause,
      callbacks: own.length,
      cost: costOf(own),
      costed: own.filter(({ cost }) => cost !== null).length,
      refrigerantAddedKg: own.reduce((sum, { refrigerantAddedKg: kg }) => sum + (kg ?? 0), 0),
      medianDays: days.length === 0 ? null : median(days),
      reasons: [...reasons]
        .map(([text, all]) => ({ text, callbacks: all.length, cost: costOf(all) }))
        .sort((a, b) => b.callbacks - a.callbacks || (a.text < b.text ? -1 : 1)),
    };
  });
}

function costOf(callbacks: readonly SeenCallback[]): number {
  return callbacks.reduce((sum, { cost }) => sum + (cost ?? 0), 0);
}

async function entriesOf(store: Store, { fleet, callbacks }: OpenCallbacks): Promise<CallbackEntry[]> {
  const { jobs, unitOf, summary, codes } = fleet;
  const found = await flaggedChecks(
    store,
    summary.policyId,
    callbacks.flatMap(({ jobId }) => (jobId === null ? [] : [jobId])),
  );
  return callbacks.toReversed().map((callback) => {
    const technician = callback.place < 0 ? -1 : jobs.units.technician.of[callback.place];
    return {
      callbackId: callback.callbackId,
      reportedAt: callback.reportedAt,
      cause: callback.cause,
      reason: codes ? null : callback.reason,
      causeFound: codes ? null : callback.causeFound,
      cost: callback.cost,
      refrigerantAddedKg: callback.refrigerantAddedKg,
      systemId: callback.systemId,
      tracedBy: tracedBy(callback),
      jobId: callback.jobId,
      daysAfter: callback.daysAfter,
      technician: technician < 0 ? null : unitOf('technician', technician),
      isRepeat: callback.isRepeat,
      findings: (found.get(callback.jobId ?? '') ?? []).map(({ checkId }) => checkId),
    };
  });
}
