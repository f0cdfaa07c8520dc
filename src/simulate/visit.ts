import type { Random } from '../numerics/random.ts';
import type { Evacuation } from './evacuation.ts';
import { nitrogenBreak } from './nitrogen-break.ts';
import type { Protocol } from './protocols.ts';
import type { Recorder } from './recorder.ts';
import type { RiseParts } from './rise-shape.ts';
import type { Technician } from './technicians.ts';
import { type WeighIn, weighIn } from './weigh-in.ts';

/** What a visit is made of. */
export interface VisitOptions {
  readonly random: Random;
  readonly evacuation: Evacuation;
  readonly recorder: Recorder;
  readonly technician: Technician;
  readonly protocol: Protocol;
  /** True where the recording stops in the middle of the rise test. */
  readonly cutInIsolation: boolean;
  /** What goes in at the end; undefined where the log ends before. */
  readonly charge: WeighIn | undefined;
}

/** What truly happened. */
export interface VisitTruth {
  pulls: number;
  /** On the clock of the recorder [s]; undefined where the system was never isolated after the last pull. */
  isolationStartS: number | undefined;
  isolationEndS: number | undefined;
  rise: RiseParts | undefined;
  /** How much of its settling is as slow as moisture [Pa]. */
  slowPa: number;
  /** Steady rise in the last isolation, of circuit and hose together [Pa/s]. */
  leakPaPerS: number;
  heldS: number;
  lastPullStartS: number;
  firstPullEndS: number;
}

const PULL_PATIENCE_S = [900, 1800] as const;

/** Pumps down until the gauge shows the target or patience ends, then holds. */
function pull(options: VisitOptions, truth: VisitTruth): void {
  const { random, evacuation, recorder, technician, protocol } = options;
  truth.pulls++;
  truth.lastPullStartS = recorder.nowS;
  recorder.heldS = 0;
  const stopPa = protocol.targetPa * random.uniform(0.7, 1);
  const patienceS = random.uniform(...PULL_PATIENCE_S);
  const tookS = recorder.run(evacuation, 'pull-down', patienceS, () => recorder.seenPa <= stopPa);
  if (truth.pulls === 1) truth.firstPullEndS = recorder.nowS;
  if (tookS < patienceS - 1) {
    const holdS = random.chance(technician.skipsHold)
      ? random.uniform(15, 100)
      : protocol.holdS * random.uniform(1.02, 1.2);
    recorder.run(evacuation, 'hold', holdS);
  }
}

/** Writes down the rise so far, as the last isolation of the visit. */
function noteRise(options: VisitOptions, truth: VisitTruth, startS: number, startPa: number): void {
  const { evacuation, recorder } = options;
  const { circuit, train, volumeM3 } = evacuation;
  const { added } = recorder;
  const vapourPa = evacuation.waterRisePa + evacuation.outgassingRisePa;
  const leakPa = evacuation.leakRisePa;
  const settlingPa = evacuation.systemPa - startPa - vapourPa - leakPa;
  truth.rise = {
    startPa,
    leakPa: leakPa + added.leakPa,
    vapourPa: vapourPa + added.vapourPa,
    settlingPa: settlingPa + added.settlingPa,
  };
  truth.slowPa = added.slowPa;
  truth.leakPaPerS =
    circuit.leakPaPerS +
    (train.isolatedAtPump ? train.hoseLeakPaM3PerS / volumeM3 : 0) +
    added.leakPa / (recorder.nowS - startS);
  truth.isolationStartS = startS;
  truth.isolationEndS = recorder.nowS;
}

/** Valves the system off and watches; returns how to note the rise at any later moment of the same isolation. */
function isolate(options: VisitOptions, truth: VisitTruth): () => void {
  const { random, evacuation, recorder, protocol, cutInIsolation } = options;
  const startS = recorder.nowS;
  const startPa = recorder.truePa(evacuation);
  evacuation.resetRises();
  const fullS = protocol.riseS * (random.chance(0.1) ? random.uniform(0.3, 0.8) : random.uniform(1, 1.15));
  recorder.valvedOff(startPa, fullS);
  recorder.run(evacuation, 'isolation', fullS * (cutInIsolation ? random.uniform(0.25, 0.9) : 1));
  const note = () => noteRise(options, truth, startS, startPa);
  note();
  return note;
}

/** Whether what the gauge shows after the rise test is over the limit. */
function overLimit(options: VisitOptions, startShownPa: number): boolean {
  const { recorder, protocol } = options;
  const limitPa = protocol.limitKind === 'level' ? protocol.limitPa : startShownPa + protocol.limitPa;
  return recorder.seenPa > limitPa;
}

/** Runs a whole visit: pulls with breaks, hold, rise test (again where it failed and the technician cares), weigh-in. */
export function visit(options: VisitOptions): VisitTruth {
  const { random, evacuation, recorder, technician } = options;
  const truth: VisitTruth = {
    pulls: 0,
    isolationStartS: undefined,
    isolationEndS: undefined,
    rise: undefined,
    slowPa: 0,
    leakPaPerS: 0,
    heldS: 0,
    lastPullStartS: 0,
    firstPullEndS: 0,
  };
  recorder.run(evacuation, 'idle', random.uniform(8, 70));
  if (random.chance(technician.breaksWithNitrogen)) {
    const breaks = random.integer(1, 2);
    for (let round = 0; round < breaks; round++) {
      truth.pulls++;
      const levelPa = random.uniform(130, 900);
      recorder.run(evacuation, 'pull-down', random.uniform(240, 600), () => recorder.seenPa <= levelPa);
      if (round === 0) truth.firstPullEndS = recorder.nowS;
      nitrogenBreak(options);
    }
  }
  const skipsRiseTest = random.chance(technician.skipsRiseTest);
  let note = () => {};
  for (let round = 0; ; round++) {
    pull(options, truth);
    if (skipsRiseTest) break;
    const shownPa = recorder.seenPa;
    note = isolate(options, truth);
    if (options.cutInIsolation || round === 2) break;
    if (!overLimit(options, shownPa) || !random.chance(technician.retests)) break;
    // Looks for the leak under nitrogen, mends it, and starts over; the nitrogen also takes water along.
    nitrogenBreak(options);
    if (evacuation.circuit.leakPaPerS > 0.005) evacuation.circuit.leakPaPerS *= random.uniform(0, 0.02);
    truth.isolationStartS = undefined;
    truth.isolationEndS = undefined;
    truth.rise = undefined;
  }
  if (options.charge !== undefined && !(options.cutInIsolation && !skipsRiseTest)) {
    weighIn(options.charge, options, skipsRiseTest ? 'hold' : 'isolation', note);
  }
  truth.heldS = recorder.heldS;
  return truth;
}
