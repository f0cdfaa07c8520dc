import type { Random } from '../numerics/random.ts';
import type { Evacuation } from './evacuation.ts';
import type { VacuumGauge } from './vacuum-gauges.ts';

export type Phase = 'idle' | 'pull-down' | 'hold' | 'isolation' | 'break' | 'weigh-in';

/** A stretch of the visit, as it truly was. */
export interface Stretch {
  readonly phase: Phase;
  readonly fromS: number;
  toS: number;
}

/** The readings of one job, one entry each. */
export interface Readings {
  readonly elapsedS: Float64Array;
  /** As shown [Pa]: NaN not read, +Infinity above the range. */
  readonly vacuumPa: Float64Array;
  /** NaN where not read. */
  readonly lineC: Float64Array;
  readonly scaleKg: Float64Array;
}

/** What a gauge shows of a pressure: its own steps, coarser by ten for every decade above 1000 steps. */
export function shownPa(gauge: VacuumGauge, pressurePa: number): number {
  if (pressurePa > gauge.rangeMaxPa) return Number.POSITIVE_INFINITY;
  let stepPa = gauge.stepPa;
  if (gauge.kind !== 'compound') while (pressurePa >= stepPa * 1000) stepPa *= 10;
  return Math.max(0, Math.round(pressurePa / stepPa) * stepPa);
}

/** What a log has of a rise beside what the evacuation has of it, by the part that it is [Pa]. */
export interface AddedParts {
  readonly leakPa: number;
  readonly vapourPa: number;
  readonly settlingPa: number;
  /** How much of the settling is as slow as moisture. */
  readonly slowPa: number;
}

export const nothingAdded: AddedParts = { leakPa: 0, vapourPa: 0, settlingPa: 0, slowPa: 0 };

/** A log that is not what the technician's gauge showed while the work was done. */
export interface LoggedOtherwise {
  /** Since the system was last valved off. */
  readonly added: AddedParts;
  /** Says that the system was valved off at that moment and pressure, for about so long. */
  valvedOff(atS: number, startPa: number, riseS: number): void;
  /** Brings `added` to that moment of an isolation; returns all of it [Pa]. */
  addedPa(atS: number, evacuationPa: number, evacuation: Evacuation): number;
  /** What is logged of a true pressure, so long after the reading before [Pa]; `noise` is the technician's gauge's, as a ratio. */
  loggedPa(truePa: number, atS: number, sinceS: number, noise: number): number;
}

export interface RecorderOptions {
  readonly random: Random;
  readonly gauge: VacuumGauge;
  /** True where the gauge sits at the pump's inlet. */
  readonly atPump: boolean;
  /** Pressure at the start [Pa]. */
  readonly startPa: number;
  /** Pressure that counts as held [Pa]. */
  readonly targetPa: number;
  /** Share of readings that the gauge does not deliver. */
  readonly dropoutRatio: number;
  /** What the pipe clamp shows [°C]; NaN where there is none. */
  readonly lineC: (elapsedS: number) => number;
  /** How far the gauge has drifted since, as a ratio of the reading; absent: not at all. */
  readonly driftRatio?: (elapsedS: number) => number;
  /** Pressure at the gauge that the evacuation does not know of [Pa], beside the one that it gives; absent: none. */
  readonly addedPa?: (elapsedS: number, evacuationPa: number) => number;
  /** True where the gauge reads by a clock of its own; absent: a reading falls on the end of every stretch too. */
  readonly ownClock?: boolean;
  /** What becomes of the log beside; absent: it is what the gauge showed. */
  readonly loggedOtherwise?: LoggedOtherwise | undefined;
}

/** Runs an evacuation on the clock and records what the instruments show of it. */
export class Recorder {
  readonly stretches: Stretch[] = [];
  nowS = 0;
  /** Last reading of the gauge [Pa]; what the technician sees. */
  seenPa = Number.POSITIVE_INFINITY;
  /** Lowest true pressure where the gauge sits, and at the system [Pa]. */
  deepestPa = Number.POSITIVE_INFINITY;
  deepestSystemPa = Number.POSITIVE_INFINITY;
  /** Time with the pump connected and the true pressure at the gauge at or below `targetPa`, since it was last set to 0 [s]. */
  heldS = 0;
  readonly targetPa: number;
  /** What the scale shows at a time [kg]; NaN while it is not read. */
  scaleKg: (elapsedS: number) => number = () => Number.NaN;
  readonly #random: Random;
  readonly #gauge: VacuumGauge;
  readonly #atPump: boolean;
  readonly #lineC: (elapsedS: number) => number;
  readonly #dropoutRatio: number;
  readonly #driftRatio: ((elapsedS: number) => number) | undefined;
  readonly #addedPa: ((elapsedS: number, evacuationPa: number) => number) | undefined;
  readonly #ownClock: boolean;
  readonly #loggedOtherwise: LoggedOtherwise | undefined;
  #untilReadS = 0;
  #sinceReadS = 0;
  #followedPa: number;
  #noise = 0;
  #count = 0;
  readonly #columns = Array.from({ length: 4 }, () => new Float64Array(2048));

  constructor(options: RecorderOptions) {
    this.#random = options.random;
    this.#gauge = options.gauge;
    this.#atPump = options.atPump;
    this.#followedPa = options.startPa;
    this.#lineC = options.lineC;
    this.#dropoutRatio = options.dropoutRatio;
    this.#driftRatio = options.driftRatio;
    this.#addedPa = options.addedPa;
    this.#loggedOtherwise = options.loggedOtherwise;
    this.#ownClock = options.ownClock ?? false;
    this.targetPa = options.targetPa;
  }

  /** True pressure where the gauge sits [Pa]. */
  truePa(evacuation: Evacuation): number {
    const evacuationPa = this.#atPump ? evacuation.pumpInletPa : evacuation.systemPa;
    return evacuationPa + (this.#addedPa?.(this.nowS, evacuationPa) ?? 0);
  }

  /** What the log has of the rise so far beside what the evacuation has. */
  get added(): AddedParts {
    return this.#loggedOtherwise?.added ?? nothingAdded;
  }

  /** Says that the system was valved off now, at that pressure, for about so long. */
  valvedOff(startPa: number, riseS: number): void {
    this.#loggedOtherwise?.valvedOff(this.nowS, startPa, riseS);
  }

  get count(): number {
    return this.#count;
  }

  /**
   * Runs until `durationS` is over, or `until` says so after a reading.
   *
   * @returns how long it ran [s]
   */
  run(evacuation: Evacuation, phase: Phase, durationS: number, until?: () => boolean, before?: () => void): number {
    const startS = this.nowS;
    const last = this.stretches.at(-1);
    const stretch: Stretch = last?.phase === phase ? last : { phase, fromS: startS, toS: startS };
    if (stretch !== last) this.stretches.push(stretch);
    const pumping = phase === 'pull-down' || phase === 'hold';
    const endS = startS + durationS;
    while (this.nowS < endS - 1e-6) {
      if (!this.#ownClock || this.#sinceReadS === 0) {
        const jitterS = this.#random.normal(0, 0.05 * this.#gauge.intervalS);
        this.#untilReadS = Math.max(0.2, this.#gauge.intervalS + jitterS);
      }
      const stepS = Math.min(endS - this.nowS, this.#untilReadS);
      before?.();
      evacuation.advance(stepS, pumping);
      this.nowS += stepS;
      if (pumping && this.truePa(evacuation) <= this.targetPa) this.heldS += stepS;
      this.#untilReadS -= stepS;
      this.#sinceReadS += stepS;
      if (this.#ownClock && this.#untilReadS > 1e-6) continue;
      this.#read(evacuation, this.#sinceReadS);
      this.#sinceReadS = 0;
      if (until?.()) break;
    }
    stretch.toS = this.nowS;
    return this.nowS - startS;
  }

  #read(evacuation: Evacuation, sinceS: number): void {
    const gauge = this.#gauge;
    const truePa = this.truePa(evacuation);
    const otherwise = this.#loggedOtherwise;
    const addedPa =
      otherwise !== undefined && this.stretches.at(-1)?.phase === 'isolation'
        ? otherwise.addedPa(this.nowS, truePa, evacuation)
        : 0;
    this.deepestPa = Math.min(this.deepestPa, truePa + addedPa);
    this.deepestSystemPa = Math.min(this.deepestSystemPa, evacuation.systemPa);
    this.#followedPa += (truePa - this.#followedPa) * (1 - Math.exp(-sinceS / gauge.lagS));
    this.#noise = 0.3 * this.#noise + this.#random.normal(0, gauge.noiseRatio * 0.954);
    const gainRatio = gauge.gainRatio * (1 + (this.#driftRatio?.(this.nowS) ?? 0));
    this.seenPa = shownPa(gauge, Math.max(0, this.#followedPa * gainRatio * (1 + this.#noise)));
    const at = this.#count;
    if (at === (this.#columns[0] as Float64Array).length) this.#grow();
    const [elapsed, vacuum, line, scale] = this.#columns as [Float64Array, Float64Array, Float64Array, Float64Array];
    elapsed[at] = Math.round(this.nowS * 10) / 10;
    const dropped = this.#dropoutRatio > 0 && this.#random.chance(this.#dropoutRatio);
    const loggedPa =
      otherwise === undefined ? this.seenPa : otherwise.loggedPa(truePa + addedPa, this.nowS, sinceS, this.#noise);
    vacuum[at] = dropped ? Number.NaN : loggedPa;
    line[at] = this.#lineC(this.nowS);
    scale[at] = this.scaleKg(this.nowS);
    this.#count = at + 1;
  }

  #grow(): void {
    for (const [index, column] of this.#columns.entries()) {
      const larger = new Float64Array(column.length * 2);
      larger.set(column);
      this.#columns[index] = larger;
    }
  }

  /**
   * The readings from `fromS` to `toS`, without those in the gaps; the clock starts anew at `fromS`.
   *
   * @param gaps stretches in which nothing was recorded [s]
   */
  readings(fromS: number, toS: number, gaps: readonly (readonly [number, number])[]): Readings {
    const [elapsed, vacuum, line, scale] = this.#columns as [Float64Array, Float64Array, Float64Array, Float64Array];
    const kept: number[] = [];
    let lastS = Number.NEGATIVE_INFINITY;
    for (let index = 0; index < this.#count; index++) {
      const atS = elapsed[index];
      if (atS < fromS || atS > toS || atS <= lastS || gaps.some(([a, b]) => atS >= a && atS < b)) continue;
      kept.push(index);
      lastS = atS;
    }
    const take = (column: Float64Array, less = 0) => {
      const taken = new Float64Array(kept.length);
      for (let index = 0; index < kept.length; index++) taken[index] = column[kept[index]] - less;
      return taken;
    };
    const startS = Math.round(fromS * 10) / 10;
    return { elapsedS: take(elapsed, startS), vacuumPa: take(vacuum), lineC: take(line), scaleKg: take(scale) };
  }
}
