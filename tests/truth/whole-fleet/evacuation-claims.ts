import { type Claim, claim } from '../claim.ts';
import { isolationClaims, isNearStart } from '../isolation-claims.ts';
import { leakClaims } from '../leak-claims.ts';
import { shapeClaims } from '../shape-claims.ts';
import { shapeTruth } from '../shape-truth.ts';
import { gaugeOf, vacuumGauges } from '../../../src/simulate/vacuum-gauges.ts';
import type { FurtherTable } from '../parts/part.ts';
import type { FleetJob } from './judged-fleet.ts';
import { confusion, errorClaim, type Named, namedClaims } from './named-claims.ts';

const shapes = ['dry', 'leak', 'moisture', 'mixed', 'settling'] as const;
/** Below it a rise has no leak that the simulation would have drawn as one [Pa/s]. */
const leakingPaPerS = 0.01;

/** Jobs of which the evacuation was logged. */
export function evacuated(jobs: readonly FleetJob[]): FleetJob[] {
  return jobs.filter(({ truth, facts }) => truth.pulls !== undefined && (facts.vacuum_readings ?? 0) > 0);
}

/** What the facts say of evacuations beside their truth. */
export function evacuationClaims(jobs: readonly FleetJob[]): { claims: Claim[]; tables: FurtherTable[] } {
  const all = evacuated(jobs);
  const cases = all.map(evacuationCase);
  const isolated = cases.filter(({ plan }) => plan.isolated);
  const found = cases.filter(({ facts }) => facts.isolation_start_s !== undefined);
  const named = isolated.map(shapeNamed);
  const [heads, ...rows] = confusion(named, shapes);
  return {
    claims: [
      claim(
        'isolation found at its place: recall',
        isolated.map((one) => ({
          plan: one.plan,
          value: isNearStart(one),
          badness: isNearStart(one) ? 0 : offS(one),
          says: startText(one),
          isUntold: one.facts.isolation_start_s === undefined,
        })),
      ),
      claim(
        '… precision',
        found.map((one) => ({
          plan: one.plan,
          value: isNearStart(one),
          badness: isNearStart(one) ? 0 : offS(one),
          says: startText(one),
        })),
      ),
      ...isolationClaims(cases),
      ...holdClaims(all),
      errorClaim(
        'deepest pressure against truth × gain, error',
        all
          .filter(({ truth }) => truth.deepest_pa !== undefined)
          .map(({ plan, truth, facts }) => {
            const shownPa = (truth.deepest_pa ?? 0) * (truth.gauge_gain_ratio ?? 1);
            return {
              plan,
              error: facts.deepest_pa === undefined ? undefined : facts.deepest_pa / shownPa - 1,
              says: `true × gain ${shownPa.toFixed(2)} Pa, found ${facts.deepest_pa?.toFixed(2)} Pa, log cut: ${truth.log_cut ?? 'no'}`,
            };
          }),
        (ratio) => `${(100 * ratio).toFixed(1)} %`,
      ),
      ...shapeClaims(isolated),
      ...namedClaims('shape', named, shapes),
      ...leakClaims(isolated),
    ],
    tables: [{ title: 'Shapes of rises', heads, rows }],
  };
}

/** A job as the claims on drawn evacuations take one. */
function evacuationCase({ plan, job, truth, facts }: FleetJob) {
  // A lent gauge logs as often as the technician's own.
  const gauge = vacuumGauges.find(({ gaugeId }) => gaugeId === job.gauge_id) ?? gaugeOf(job.technician_id ?? 't01');
  const isLeaking = (truth.leak_pa_per_s ?? 0) >= leakingPaPerS;
  const rise = {
    startPa: truth.isolation_start_pa ?? 0,
    leakPa: truth.rise_leak_pa ?? 0,
    vapourPa: truth.rise_vapour_pa ?? 0,
    settlingPa: truth.rise_settling_pa ?? 0,
  };
  const levelPa = job.rise_limit_kind === 'level' ? job.rise_limit_pa : undefined;
  return {
    plan: {
      ...plan,
      kind: isLeaking ? 'leaking' : (truth.rise_shape ?? 'never isolated'),
      isolated: truth.isolation_start_s !== undefined,
      marked: facts.marked === true,
      unmodelled: truth.unmodelled === undefined ? undefined : { name: truth.unmodelled },
      gauge: { intervalS: gauge.intervalS, gainRatio: truth.gauge_gain_ratio ?? 1 },
    },
    facts,
    truth: {
      ...truth,
      rise,
      ...(truth.rise_shape === undefined
        ? {}
        : {
            shape: {
              ...shapeTruth(rise, 0, levelPa),
              shape: truth.rise_shape,
              alsoRight: truth.rise_shape_also === undefined ? [] : [truth.rise_shape_also],
            },
          }),
    },
  };
}

type EvacuationCase = ReturnType<typeof evacuationCase>;

function offS({ facts, truth }: EvacuationCase): number {
  const { isolation_start_s: foundS } = facts;
  if (foundS === undefined || truth.isolation_start_s === undefined) return 1;
  return Math.abs(foundS - truth.isolation_start_s);
}

function startText({ facts, truth }: EvacuationCase): string {
  return `true ${truth.isolation_start_s?.toFixed(0) ?? 'none'} s, found ${facts.isolation_start_s?.toFixed(0) ?? 'none'} s, log cut: ${truth.log_cut ?? 'no'}`;
}

function shapeNamed({ plan, facts, truth }: EvacuationCase): Named {
  const found = facts.rise_shape ?? 'absent';
  return {
    plan,
    // A shape that is as right counts as the true one where it is found.
    truth: found === truth.rise_shape_also ? found : truth.rise_shape,
    found,
    isUntold: found === 'undecided' || found === 'absent',
    says: `true ${truth.rise_shape}, found ${found}`,
  };
}

function holdClaims(all: readonly FleetJob[]): Claim[] {
  const held = all.filter(({ truth }) => truth.hold_s !== undefined);
  const offHoldS = ({ truth, facts }: FleetJob) =>
    facts.hold_s === undefined ? undefined : facts.hold_s - (truth.hold_s ?? 0);
  const says = ({ truth, facts }: FleetJob) =>
    `true ${truth.hold_s?.toFixed(0)} s, found ${facts.hold_s?.toFixed(0) ?? 'none'} s, gain ${truth.gauge_gain_ratio?.toFixed(3)}, log cut: ${truth.log_cut ?? 'no'}`;
  return [
    claim(
      'hold at or below the target, by the plain truth, within 15 s or 5 %',
      held.map((one) => {
        const off = Math.abs(offHoldS(one) ?? one.truth.hold_s ?? 0);
        const value = offHoldS(one) !== undefined && off <= Math.max(15, 0.05 * (one.truth.hold_s ?? 0));
        return {
          plan: one.plan,
          value,
          badness: value ? 0 : off,
          says: says(one),
          isUntold: one.facts.hold_s === undefined,
        };
      }),
    ),
    errorClaim(
      '… its error',
      held.map((one) => ({ plan: one.plan, error: offHoldS(one), says: says(one) })),
      (seconds) => `${seconds.toFixed(0)} s`,
    ),
  ];
}
