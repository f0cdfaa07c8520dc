import type { Random } from '../../numerics/random.ts';

/** One gauge of a set: what it shows is off by a share and a zero, wanders, and comes in steps of the gauge pressure. */
export interface RunGauge {
  readonly gainRatio: number;
  readonly zeroPa: number;
  readonly driftPaPerS: number;
  readonly noisePa: number;
  readonly stepPa: number;
}

/** A clamp on a pipe: slow, off by something, and somewhat as warm as the air around it. */
export interface PipeClamp {
  readonly biasK: number;
  readonly airShare: number;
  readonly lagS: number;
  readonly noiseK: number;
}

/** What reads a running system. */
export interface RunInstruments {
  readonly suction: RunGauge;
  readonly liquid: RunGauge;
  readonly suctionClamp: PipeClamp;
  readonly liquidClamp: PipeClamp;
  /** How far the probes for the air are off [K]: outdoor, indoor, wet bulb, supply, return. */
  readonly airBiasK: readonly [number, number, number, number, number];
}

/** Instruments that show what is: for looking at the truth. */
export const exactInstruments: RunInstruments = {
  suction: { gainRatio: 1, zeroPa: 0, driftPaPerS: 0, noisePa: 0, stepPa: 0 },
  liquid: { gainRatio: 1, zeroPa: 0, driftPaPerS: 0, noisePa: 0, stepPa: 0 },
  suctionClamp: { biasK: 0, airShare: 0, lagS: 0, noiseK: 0 },
  liquidClamp: { biasK: 0, airShare: 0, lagS: 0, noiseK: 0 },
  airBiasK: [0, 0, 0, 0, 0],
};

/** To the nearest step; a step of 0 leaves the value. */
export function stepped(value: number, step: number): number {
  return step > 0 ? Math.round(value / step) * step : value;
}

/** What a gauge shows, absolute [Pa]; it reads from the air's pressure up, and a zero too low never shows below 0 absolute. */
export function shownByGauge(random: Random, gauge: RunGauge, pressurePa: number, atmospherePa: number, atS: number) {
  const { gainRatio, zeroPa, driftPaPerS, noisePa, stepPa } = gauge;
  const noise = noisePa > 0 ? random.normal(0, noisePa) : 0;
  const gaugePa = (pressurePa - atmospherePa) * gainRatio + zeroPa + driftPaPerS * atS + noise;
  return Math.max(0, stepped(gaugePa, stepPa) + atmospherePa);
}

/** A clamp as it follows its pipe; steps of 0.1 K unless it is an exact one. */
export class ClampReading {
  readonly #clamp: PipeClamp;
  #followsC = Number.NaN;
  /** From then on it hangs in the air [s]. */
  offFromS = Number.POSITIVE_INFINITY;

  constructor(clamp: PipeClamp) {
    this.#clamp = clamp;
  }

  read(random: Random, pipeC: number, airC: number, atS: number, sinceS: number): number {
    const { biasK, airShare, lagS, noiseK } = this.#clamp;
    const towardsC = atS >= this.offFromS ? airC : pipeC + airShare * (airC - pipeC);
    if (Number.isNaN(this.#followsC) || lagS === 0) this.#followsC = towardsC;
    else this.#followsC += (towardsC - this.#followsC) * (1 - Math.exp(-sinceS / lagS));
    const shownC = this.#followsC + biasK + (noiseK > 0 ? random.normal(0, noiseK) : 0);
    return stepped(shownC, noiseK > 0 ? 0.1 : 0);
  }
}
