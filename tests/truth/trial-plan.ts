import type { Circuit, PumpTrain } from '../../src/simulate/evacuation.ts';
import type { Protocol } from '../../src/simulate/protocols.ts';
import type { VacuumGauge } from '../../src/simulate/vacuum-gauges.ts';
import type { Unmodelled } from '../../src/simulate/mishaps/unmodelled-rise.ts';

export type TrialKind = 'dry' | 'leaking' | 'wet' | 'mixed';

/** One evacuation before it happens: all that is drawn of it but the noise. */
export interface TrialPlan {
  readonly seed: number;
  readonly number: number;
  readonly kind: TrialKind;
  readonly used: boolean;
  /** A shape in the rise that no fitter knows; undefined where there is none. */
  readonly unmodelled: Unmodelled | undefined;
  readonly circuit: Circuit;
  readonly train: PumpTrain;
  readonly gauge: VacuumGauge;
  readonly gaugeAtPump: boolean;
  /** Steady drift of the gauge [1/s], and the spread of its random walk over one second [ratio]. */
  readonly driftPerS: number;
  readonly walkRatio: number;
  readonly protocol: Protocol;
  /** Whether the job record names the protocol. */
  readonly recorded: boolean;
  readonly holdS: number;
  readonly riseS: number;
  /** False where the technician goes from the pump straight to the break. */
  readonly isolated: boolean;
  readonly nitrogenBreaks: number;
  readonly ends: 'log-end' | 'break' | 'weigh-in';
  readonly marked: boolean;
  readonly clamp: boolean;
  /** How fast the pipe really warms [K/s]. */
  readonly lineDriftKPerS: number;
  readonly volumeRecorded: boolean;
}
