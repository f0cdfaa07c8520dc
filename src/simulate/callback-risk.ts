import type { Random } from '../numerics/random.ts';
import type { Callback } from '../records/tables/callbacks.ts';
import { days, instantOfDay } from './calendar.ts';
import type { CallbackCauseTruth, CallbackTruth } from './callback-truth.ts';

/** What a job left behind in the system. */
export interface LeftBehind {
  readonly jobId: string;
  readonly systemId: string;
  readonly day: number;
  /** Leak of the circuit [Pa/s in the vacuum]. */
  readonly leakPaPerS: number;
  /** Pressure that the water left behind tends to [Pa]. */
  readonly vapourPa: number;
  /** Charge deviation, relative to the whole charge. */
  readonly deviationRatio: number;
}

/** Causes of our own invention, each with its yearly hazard: made up, so that faults weigh more than chance. */
function hazards(left: LeftBehind): Record<Exclude<CallbackCauseTruth, 'unrelated'>, number> {
  return {
    leak: left.leakPaPerS > 0.005 ? Math.min(1.6, 0.35 + 0.3 * Math.log(left.leakPaPerS / 0.005)) : 0,
    moisture: left.vapourPa > 60 ? Math.min(0.7, left.vapourPa / 700) : 0,
    charge: Math.abs(left.deviationRatio) > 0.08 ? Math.min(0.9, 3 * Math.abs(left.deviationRatio)) : 0,
  };
}

/** Yearly hazard of callbacks that have nothing to do with the job. */
const UNRELATED_HAZARD = 0.05;

const said = {
  leak: ['not cooling', 'ice on the pipe', 'cools less than last month'],
  moisture: ['stops by itself', 'hissing and short cycling', 'error shown, compressor off'],
  charge: ['cools too little', 'high power bill', 'runs without end'],
  unrelated: ['water dripping indoors', 'remote control dead', 'rattling noise', 'breaker tripped'],
} as const;

const found = {
  leak: 'leak at a flare',
  moisture: 'moisture in the circuit',
  charge: 'charge off',
  unrelated: 'not refrigerant side',
} as const;

/** Probability of a callback within a year that the job itself causes. */
export function callbackRisk(left: LeftBehind): number {
  const { leak, moisture, charge } = hazards(left);
  return 1 - Math.exp(-(leak + moisture + charge));
}

/** A callback, the day it came, and whether it asks for a repair of the circuit. */
export interface DrawnCallback {
  readonly row: Callback;
  readonly truth: CallbackTruth;
  readonly day: number;
  readonly needsRepair: boolean;
}

/**
 * Draws the first callback to a job within the simulated year; undefined where none came.
 *
 * @param isCauseWritten whether whoever went there writes down what was found
 */
export function drawCallback(
  random: Random,
  left: LeftBehind,
  chargeKg: number,
  isCauseWritten: boolean,
): DrawnCallback | undefined {
  const causes = { ...hazards(left), unrelated: UNRELATED_HAZARD };
  const total = causes.leak + causes.moisture + causes.charge + causes.unrelated;
  const onDay = left.day + 1 + random.exponential(365 / total);
  const cause = random.weighted(causes);
  const named = random.chance(0.5);
  const cost = Math.round(random.uniform(90, 260) + (cause === 'unrelated' ? 0 : random.uniform(60, 420)));
  const addedKg =
    cause === 'leak' || (cause === 'charge' && left.deviationRatio < 0) ? chargeKg * random.uniform(0.1, 0.5) : 0;
  const reason = random.choice<string>(said[cause]);
  if (onDay >= days) return undefined;
  const row: Callback = {
    callback_id: `callback-${left.jobId.slice(4)}`,
    system_id: left.systemId,
    ...(named ? { job_id: left.jobId } : {}),
    reported_at: instantOfDay(Math.floor(onDay) + random.uniform(0.33, 0.75)),
    reason,
    ...(isCauseWritten ? { cause_found: found[cause] } : {}),
    ...(addedKg > 0 ? { refrigerant_added_kg: Math.round(addedKg * 100) / 100 } : {}),
    cost,
  };
  const truth = { callback_id: row.callback_id, job_id: left.jobId, caused_by: cause };
  return { row, truth, day: onDay, needsRepair: cause !== 'unrelated' };
}
