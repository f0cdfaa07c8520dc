import { Random } from '../../src/numerics/random.ts';
import { Evacuation } from '../../src/simulate/evacuation.ts';
import { nitrogenBreak } from '../../src/simulate/nitrogen-break.ts';
import { phaseMarks } from '../../src/simulate/phase-marks.ts';
import type { Readings } from '../../src/simulate/recorder.ts';
import type { RiseParts } from '../../src/simulate/rise-shape.ts';
import { type WeighIn, weighIn } from '../../src/simulate/weigh-in.ts';
import type { PhaseMark } from '../../src/traces/vacuum-series.ts';
import type { Unmodelled } from '../../src/simulate/mishaps/unmodelled-rise.ts';
import { gaugeDrift } from '../../src/simulate/mishaps/gauge-drift.ts';
import { plateauOf } from './plateau-of.ts';
import { shapeTruth } from './shape-truth.ts';
import type { TrialPlan } from './trial-plan.ts';
import { TrialRecorder } from './trial-recorder.ts';
import type { TrialTruth } from './trial-truth.ts';

export interface TrialRun {
  readonly readings: Readings;
  readonly marks: readonly PhaseMark[];
  readonly truth: TrialTruth;
  /** True pressure at the gauge, at each reading as it was taken. */
  readonly trueTimesS: readonly number[];
  readonly truePas: readonly number[];
}

/** Held where the record has no target: 500 µm, common practice, no source [Pa]. */
const USUAL_TARGET_PA = 66.661184;

const noCharge: WeighIn = { massKg: 0, cylinderKg: 9, scaleStepKg: 0.005 };

/** A charge as an evacuation sees it: a wait, an even flow, a wait; by numbers of its own, whatever else is known of scales. */
function evenCharge(plan: TrialPlan, massKg: number): WeighIn {
  const random = new Random(plan.seed, 4 * plan.number + 3);
  const flowFromS = random.uniform(20, 60);
  const flowToS = flowFromS + massKg / random.uniform(0.006, 0.02);
  const durationS = flowToS + random.uniform(30, 90);
  return { ...noCharge, massKg, course: { flowFromS, flowToS, durationS, shownKg: () => Number.NaN } };
}

/**
 * Carries a plan out: pulls, hold, isolation, end.
 *
 * @param stream 1 for the trial itself, 2 for the same with fresh noise
 * @param moreLeakPaPerS added to the leak of the circuit
 */
export function runTrial(plan: TrialPlan, stream: 1 | 2 = 1, moreLeakPaPerS = 0): TrialRun {
  const { gauge, train, protocol, unmodelled } = plan;
  const random = new Random(plan.seed, 4 * plan.number + stream);
  const leakPaPerS = plan.circuit.leakPaPerS + moreLeakPaPerS;
  const circuit = { ...plan.circuit, leakPaPerS };
  const evacuation = new Evacuation(circuit, train);
  let valveOffS = Number.POSITIVE_INFINITY;
  const recorder = new TrialRecorder({
    random,
    gauge,
    atPump: plan.gaugeAtPump,
    startPa: evacuation.atmospherePa,
    targetPa: plan.recorded ? protocol.targetPa : USUAL_TARGET_PA,
    dropoutRatio: 0,
    ownClock: true,
    driftRatio: gaugeDrift(plan, random),
    addedPa: (atS, pa) => (atS > valveOffS ? (unmodelled?.addedPa(atS - valveOffS, pa) ?? 0) : 0),
    lineC: plan.clamp
      ? (atS) =>
          Math.round((circuit.temperatureK - 273.15 + plan.lineDriftKPerS * atS + random.normal(0, 0.05)) * 10) / 10
      : () => Number.NaN,
  });
  recorder.run(evacuation, 'idle', random.uniform(8, 70));
  for (let round = 0; round < plan.nitrogenBreaks; round++) {
    const levelPa = random.uniform(130, 900);
    recorder.run(evacuation, 'pull-down', random.uniform(240, 600), () => recorder.seenPa <= levelPa);
    nitrogenBreak({ random, evacuation, recorder });
  }
  recorder.heldS = 0;
  recorder.shownHeldS = 0;
  const stopPa = protocol.targetPa * random.uniform(0.7, 1);
  const patienceS = random.uniform(900, 1800);
  const tookS = recorder.run(evacuation, 'pull-down', patienceS, () => recorder.seenPa <= stopPa);
  if (tookS < patienceS - 1) recorder.run(evacuation, 'hold', plan.holdS);

  let rise: RiseParts | undefined;
  let plateauPa: number | undefined;
  const startPa = recorder.truePa(evacuation);
  const fromS = recorder.nowS;
  let toS = fromS;
  let addedPa = 0;
  const note = () => {
    if (!plan.isolated) return;
    toS = recorder.nowS;
    addedPa = recorder.truePa(evacuation) - evacuation.systemPa;
    rise = riseParts(evacuation, startPa, addedPa, unmodelled?.part);
  };
  if (plan.isolated) {
    evacuation.resetRises();
    plateauPa = plateauOf(evacuation);
    valveOffS = fromS;
    recorder.run(evacuation, 'isolation', plan.riseS, undefined, () => {
      circuit.leakPaPerS = leakPaPerS * (unmodelled?.leakMultiple(recorder.nowS - fromS) ?? 1);
    });
    note();
  }
  if (plan.ends !== 'log-end' || !plan.isolated) {
    const waiting = plan.isolated ? 'isolation' : 'hold';
    const charge = plan.ends === 'weigh-in' ? evenCharge(plan, random.uniform(0.1, 0.8)) : noCharge;
    weighIn(charge, { random, evacuation, recorder }, waiting, note);
  }

  const marks = plan.marked ? phaseMarks(random, recorder.stretches, false) : [];
  const limitPa = plan.recorded && protocol.limitKind === 'level' ? protocol.limitPa : undefined;
  const slowPa = unmodelled?.part === 'either' ? addedPa : 0;
  return {
    readings: recorder.readings(0, recorder.nowS, []),
    marks: marks.map(({ fromS: elapsedS, mark }) => ({ elapsedS, phase: mark === '' ? null : mark })),
    trueTimesS: recorder.trueTimesS,
    truePas: recorder.truePas,
    truth: {
      pulls: plan.nitrogenBreaks + 1,
      hold_s: recorder.heldS,
      shown_hold_s: recorder.shownHeldS,
      gauge_gain_ratio: gauge.gainRatio,
      ...(rise !== undefined && {
        isolation_start_s: fromS,
        isolation_end_s: toS,
        rise,
        shape: shapeTruth(rise, slowPa, limitPa),
        leak_pa_per_s: rise.leakPa / (toS - fromS),
        plateau_pa: plateauPa,
      }),
    },
  };
}

/** What the rise is made of so far; what no model knows counts with the part that it is. */
function riseParts(
  evacuation: Evacuation,
  startPa: number,
  addedPa: number,
  part: Unmodelled['part'] = 'settling',
): RiseParts {
  const vapourPa = evacuation.waterRisePa + evacuation.outgassingRisePa;
  const leakPa = evacuation.leakRisePa;
  const settlingPa = evacuation.systemPa - startPa - vapourPa - leakPa;
  return part === 'vapour'
    ? { startPa, leakPa, vapourPa: vapourPa + addedPa, settlingPa }
    : { startPa, leakPa, vapourPa, settlingPa: settlingPa + addedPa };
}
