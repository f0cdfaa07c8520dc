import type { Random } from '../numerics/random.ts';
import { drawConditions } from './conditions.ts';
import type { Crew } from './crews.ts';
import { type Circuit, Evacuation } from './evacuation.ts';
import type { JobMishaps } from './mishaps/draw-mishaps.ts';
import { VacuumMishaps } from './mishaps/vacuum-mishaps.ts';
import { type PhaseMark, phaseMarks } from './phase-marks.ts';
import { type Protocol, protocols } from './protocols.ts';
import { type Readings, Recorder } from './recorder.ts';
import { type RiseParts, riseShape, slowAsMoistureShape } from './rise-shape.ts';
import type { System } from './system.ts';
import type { Technician } from './technicians.ts';
import type { Truth } from './truth.ts';
import { compoundGauge, gaugeOf, type VacuumGauge } from './vacuum-gauges.ts';
import { visit } from './visit.ts';
import type { WeighIn } from './weigh-in.ts';

/** What a job's evacuation is drawn from. */
export interface VacuumLogOptions {
  readonly random: Random;
  readonly technician: Technician;
  readonly crew: Crew;
  readonly day: number;
  readonly system: System;
  readonly used: boolean;
  readonly lineC: number;
  readonly altitudeM: number;
  readonly charge: WeighIn;
  /** How often every vacuum gauge logs [s]; absent: as often as each does. */
  readonly intervalS?: number | undefined;
  /** What goes wrong with it; absent: nothing. */
  readonly mishaps?: JobMishaps | undefined;
  /** What is done to the circuit before the pump is connected; it may mend a leak. */
  readonly before?: ((circuit: Circuit, clamp: boolean) => void) | undefined;
}

/** An evacuation with its record, its readings and its truth. */
export interface VacuumLog {
  readonly gauge: VacuumGauge;
  readonly gaugeAtPump: boolean;
  readonly coresIn: boolean;
  readonly clamp: boolean;
  /** Undefined where the job record asks nothing. */
  readonly protocol: Protocol | undefined;
  readonly durationS: number;
  readonly barometerPa: number;
  /** Undefined where nothing was logged. */
  readonly readings: Readings | undefined;
  readonly marks: readonly PhaseMark[];
  readonly truth: Omit<Truth, 'job_id'>;
  /** Leak of the circuit, and pressure that its water tends to, when the job is done. */
  readonly leakPaPerS: number;
  readonly vapourPa: number;
}

/** Held where the record has no target: 500 µm, common practice, no source [Pa]. */
const USUAL_TARGET_PA = 66.661184;

/** Simulates the evacuation of one job and what is logged of it. */
export function simulateVacuumLog(options: VacuumLogOptions): VacuumLog {
  const { random, technician, lineC, mishaps } = options;
  const coresIn = !random.chance(technician.removesCores);
  const gaugeAtPump = random.chance(technician.gaugeAtPump);
  const own = random.chance(0.025) ? compoundGauge : gaugeOf(technician.technicianId);
  const gauge = options.intervalS === undefined ? own : { ...own, intervalS: options.intervalS };
  const { circuit, train } = drawConditions({ ...options, coresIn, gaugeAtPump });
  const protocol: Protocol = protocols[random.weighted({ rise: 0.35, deep: 0.4, strict: 0.25 })];
  const recorded = !random.chance(0.12);
  const cut = random.chance(0.03) ? (random.chance(0.5) ? 'start' : 'end') : undefined;
  const clamp = random.chance(0.7);
  const driftKPerS = random.normal(0, 0.0006);
  options.before?.(circuit, clamp);
  const evacuation = new Evacuation(circuit, train);
  const amiss = mishaps && VacuumMishaps.of(mishaps, gauge, circuit, options.day, evacuation.atmospherePa);
  const warmingKPerS = driftKPerS + (mishaps?.circuitDriftKPerS ?? 0);
  const recorder = new Recorder({
    random,
    gauge,
    atPump: gaugeAtPump,
    startPa: evacuation.atmospherePa,
    targetPa: recorded ? protocol.targetPa : USUAL_TARGET_PA,
    loggedOtherwise: amiss,
    dropoutRatio: random.chance(0.05) ? 0.02 : 0,
    lineC: clamp
      ? (atS) => Math.round((lineC + warmingKPerS * atS + random.normal(0, 0.05)) * 10) / 10
      : () => Number.NaN,
  });
  const logged = !random.chance(0.04);
  const happened = visit({
    random,
    evacuation,
    recorder,
    technician,
    protocol,
    cutInIsolation: cut === 'end',
    charge: random.chance(0.2) ? undefined : options.charge,
  });

  const fromS = cut === 'start' ? random.uniform(0.1, 0.9) * happened.firstPullEndS : 0;
  const gaps: [number, number][] = [];
  while (random.chance(0.08)) {
    // Never the very end: what is missing there is a log cut, not a gap.
    const gapS = random.uniform(0, Math.max(0, recorder.nowS - 150));
    gaps.push([gapS, gapS + random.uniform(15, 120)]);
  }
  const marked = random.chance(0.5);
  const marksWrong = marked && random.chance(0.08);
  const marks = logged && marked ? phaseMarks(random, recorder.stretches, marksWrong) : [];
  const onLog = (value: number | undefined) =>
    value === undefined ? undefined : Math.round((value - fromS) * 10) / 10;
  const levelLimitPa = recorded && protocol.limitKind === 'level' ? protocol.limitPa : undefined;
  const { rise } = happened;
  return {
    gauge: amiss?.gauge ?? gauge,
    gaugeAtPump,
    coresIn,
    clamp,
    protocol: recorded ? protocol : undefined,
    durationS: recorder.nowS,
    barometerPa: evacuation.atmospherePa,
    readings: logged ? recorder.readings(fromS, recorder.nowS, gaps) : undefined,
    marks: marks.map((one) => ({ ...one, fromS: one.fromS - fromS })),
    leakPaPerS: circuit.leakPaPerS,
    vapourPa: evacuation.waterTendencyPa,
    truth: {
      ...(logged && {
        isolation_start_s: onLog(happened.isolationStartS),
        isolation_end_s: onLog(happened.isolationEndS),
        pulls: happened.pulls,
        rise_shape: rise === undefined ? 'absent' : riseShape(rise, levelLimitPa),
        leak_pa_per_s: rise === undefined ? undefined : happened.leakPaPerS,
        deepest_pa: recorder.deepestPa,
        hold_s: happened.heldS,
        isolation_start_pa: rise?.startPa,
        rise_leak_pa: rise?.leakPa,
        rise_vapour_pa: rise?.vapourPa,
        rise_settling_pa: rise?.settlingPa,
        log_cut: cut,
        log_gap_s: gaps.length === 0 ? undefined : Math.max(...gaps.map(([beginS, endS]) => endS - beginS)),
        phase_marks: marked ? (marksWrong ? 'wrong' : 'right') : undefined,
        ...(rise !== undefined && mishaps && riseMishaps(rise, happened.slowPa, levelLimitPa, amiss)),
      }),
      circuit_leak_pa_per_s: circuit.leakPaPerS,
      deepest_system_pa: recorder.deepestSystemPa,
      water_kg: circuit.waterKg,
      water_left_kg: evacuation.waterLeftKg,
      gauge_gain_ratio: amiss?.gauge.gainRatio ?? gauge.gainRatio,
      gauge_drift_ratio: amiss?.driftRatio,
      circuit_drift_k_per_s: mishaps?.circuitDriftKPerS === 0 ? undefined : mishaps?.circuitDriftKPerS,
    },
  };
}

/** What of a rise no model knows, and the shape that it might as well be called. */
function riseMishaps(
  rise: RiseParts,
  slowPa: number,
  levelLimitPa: number | undefined,
  amiss: VacuumMishaps | undefined,
): Partial<Truth> {
  const also = slowAsMoistureShape(rise, slowPa, levelLimitPa);
  return {
    unmodelled: amiss?.unmodelled?.name,
    rise_shape_also: also === riseShape(rise, levelLimitPa) ? undefined : also,
  };
}
