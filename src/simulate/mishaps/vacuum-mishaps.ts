import type { Random } from '../../numerics/random.ts';
import { waterVapourPressure } from '../../physics/index.ts';
import { days } from '../calendar.ts';
import type { Circuit, Evacuation } from '../evacuation.ts';
import { type AddedParts, type LoggedOtherwise, nothingAdded, shownPa } from '../recorder.ts';
import type { VacuumGauge } from '../vacuum-gauges.ts';
import type { JobMishaps } from './draw-mishaps.ts';
import { gaugeDrift } from './gauge-drift.ts';
import { ageingGauges } from './other-gauges.ts';
import { drawUnmodelled, LEAKING_PA_PER_S, type Unmodelled } from './unmodelled-rise.ts';

/**
 * What goes wrong between an evacuation and its log.
 *
 * Who works there goes by the gauge as it would read without, so that all that is done, and what is left behind, stays
 * what it is in a fleet without mishaps.
 */
export class VacuumMishaps implements LoggedOtherwise {
  /** The gauge that logs, with its gain on that day. */
  readonly gauge: VacuumGauge;
  /** How far it has drifted by that day; undefined for one that keeps its gain. */
  readonly driftRatio: number | undefined;
  unmodelled: Unmodelled | undefined;
  added: AddedParts = nothingAdded;
  readonly #random: Random;
  readonly #circuit: Circuit;
  readonly #isUnmodelled: boolean;
  readonly #circuitDriftKPerS: number;
  readonly #walk: ((elapsedS: number) => number) | undefined;
  readonly #noiseMultiple: number;
  #followedPa: number;
  #valveOffS = 0;
  /** Up to where the leak that changes is summed up [s after valve-off]. */
  #summedS = 0;

  private constructor(mishaps: JobMishaps, own: VacuumGauge, circuit: Circuit, day: number, startPa: number) {
    this.#random = mishaps.random;
    this.#circuit = circuit;
    this.#isUnmodelled = hasUnmodelled(mishaps, circuit);
    this.#circuitDriftKPerS = mishaps.circuitDriftKPerS;
    const gauge = mishaps.lentGauge === undefined ? own : { ...mishaps.lentGauge, intervalS: own.intervalS };
    const ageing = ageingGauges.get(gauge.gaugeId);
    this.driftRatio = ageing && (ageing.perYearRatio * day) / days;
    this.gauge = { ...gauge, gainRatio: gauge.gainRatio * (1 + (this.driftRatio ?? 0)) };
    this.#walk = ageing && gaugeDrift(ageing, this.#random);
    this.#noiseMultiple = gauge === own ? 1 : gauge.noiseRatio / own.noiseRatio;
    this.#followedPa = startPa;
  }

  /** Those of one evacuation; undefined where none can show in its log. */
  static of(
    mishaps: JobMishaps,
    own: VacuumGauge,
    circuit: Circuit,
    day: number,
    startPa: number,
  ): VacuumMishaps | undefined {
    const { circuitDriftKPerS, lentGauge } = mishaps;
    const shows =
      hasUnmodelled(mishaps, circuit) ||
      circuitDriftKPerS !== 0 ||
      lentGauge !== undefined ||
      ageingGauges.has(own.gaugeId);
    return shows ? new VacuumMishaps(mishaps, own, circuit, day, startPa) : undefined;
  }

  valvedOff(atS: number, startPa: number, riseS: number): void {
    this.#valveOffS = atS;
    this.#summedS = 0;
    this.added = nothingAdded;
    if (this.#isUnmodelled) this.unmodelled = drawUnmodelled(this.#random, this.#circuit, riseS, startPa);
  }

  addedPa(atS: number, evacuationPa: number, evacuation: Evacuation): number {
    const sinceS = atS - this.#valveOffS;
    const parts = { ...nothingAdded };
    const { unmodelled } = this;
    if (unmodelled !== undefined) {
      const pa = unmodelled.addedPa(sinceS, evacuationPa);
      if (unmodelled.part === 'vapour') parts.vapourPa += pa;
      else parts.settlingPa += pa;
      if (unmodelled.part === 'either') parts.slowPa = pa;
      const multiple = unmodelled.leakMultiple((this.#summedS + sinceS) / 2);
      parts.leakPa = this.added.leakPa + this.#circuit.leakPaPerS * (multiple - 1) * (sinceS - this.#summedS);
      this.#summedS = sinceS;
    }
    if (this.#circuitDriftKPerS !== 0) {
      // The gas follows the temperature; water on the walls and in the oil follows its vapour pressure.
      const { temperatureK } = this.#circuit;
      const warmK = this.#circuitDriftKPerS * sinceS;
      const wetter = waterVapourPressure(temperatureK + warmK) / waterVapourPressure(temperatureK) - 1;
      parts.settlingPa += (evacuation.nearGasPa * warmK) / temperatureK;
      parts.vapourPa += evacuation.waterPa * wetter;
    }
    this.added = parts;
    return parts.leakPa + parts.vapourPa + parts.settlingPa;
  }

  loggedPa(truePa: number, atS: number, sinceS: number, noise: number): number {
    const { gauge } = this;
    this.#followedPa += (truePa - this.#followedPa) * (1 - Math.exp(-sinceS / gauge.lagS));
    const gainRatio = gauge.gainRatio * (1 + (this.#walk?.(atS) ?? 0));
    return shownPa(gauge, Math.max(0, this.#followedPa * gainRatio * (1 + noise * this.#noiseMultiple)));
  }
}

function hasUnmodelled({ isUnmodelled }: JobMishaps, circuit: Circuit): boolean {
  return circuit.leakPaPerS >= LEAKING_PA_PER_S ? isUnmodelled.leaking : isUnmodelled.other;
}
