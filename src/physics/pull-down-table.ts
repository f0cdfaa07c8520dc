import { limitsOf, requireWithin } from './require-within.ts';
import { type PumpedThrough, systemPumpingSpeed } from './system-pumping-speed.ts';

const speedLimits = limitsOf('pumping speed [m³/s]', { above: 0 });
/** Steps of the table, in ln of the pressure above the pump's floor. */
const STEP = 0.125;
/** The table begins so far above the floor [Pa] … */
const LEAST_ABOVE_PA = 0.5;
/** … and ends here [Pa]: no air is denser at any site. */
const MOST_PA = 120_000;

/**
 * Times of dry pull-downs through a pump and its hoses, from a table: `pullDownThroughHose` for many jobs with the same
 * gear.
 *
 * Source: as `pullDownThroughHose`; between entries throughput is taken as a power of the pressure, which it nearly is.
 * Accuracy: within 0.3 % of it, 0.02 % on average (random trains; the worst where a sonic bound bends the rate).
 */
export class PullDownTable {
  readonly #floorPa: number;
  readonly #firstLog: number;
  /** At every entry: ln of seconds per m³ and per unit of ln … */
  readonly #logRate: Float64Array;
  /** … seconds per m³ from the first entry … */
  readonly #seconds: Float64Array;
  /** … and ln of the pressure above the floor at the pump's inlet. */
  readonly #inletLog: Float64Array;

  /**
   * @param pump pump and passages, its speed above 0
   * @throws DryholdError `out-of-range` unless the speed is above 0, otherwise as `systemPumpingSpeed`
   */
  constructor(pump: PumpedThrough) {
    const { pumpSpeedM3PerS, floorPa = 0 } = pump;
    requireWithin(speedLimits, pumpSpeedM3PerS);
    this.#floorPa = floorPa;
    this.#firstLog = Math.log(LEAST_ABOVE_PA);
    const count = Math.ceil((Math.log(MOST_PA) - this.#firstLog) / STEP) + 1;
    this.#logRate = new Float64Array(count);
    this.#seconds = new Float64Array(count);
    this.#inletLog = new Float64Array(count);
    for (let k = 0; k < count; k += 1) {
      const log = this.#firstLog + k * STEP;
      const systemPa = floorPa + Math.exp(log);
      const throughputLog = Math.log(systemPa * systemPumpingSpeed(pump, systemPa));
      this.#logRate[k] = log - throughputLog;
      this.#inletLog[k] = throughputLog - Math.log(pumpSpeedM3PerS);
      if (k > 0) this.#seconds[k] = this.#seconds[k - 1] + this.#within(k - 1, 1);
    }
  }

  /**
   * Time that a dry pull-down takes, for each m³ [s/m³].
   *
   * @param fromPa @param toPa pressures in the system [Pa], absolute
   * @returns 0 where the end is not below the start; +Infinity where it is within 0.5 Pa of the pump's floor
   */
  secondsPerM3(fromPa: number, toPa: number): number {
    return toPa < fromPa ? this.#since(this.#entryOf(fromPa)) - this.#since(this.#entryOf(toPa)) : 0;
  }

  /**
   * Pressure in the system while the pump's inlet is at one [Pa], absolute: what a gauge at the pump stands for.
   *
   * @returns at most 120 kPa; NaN where the inlet is at the pump's floor, or so near that the system is within 0.5 Pa of it
   */
  systemPa(inletPa: number): number {
    const log = Math.log(inletPa - this.#floorPa);
    const logs = this.#inletLog;
    if (!(log >= logs[0])) return Number.NaN;
    let low = 0;
    let high = logs.length - 1;
    if (log >= logs[high]) return MOST_PA;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (logs[middle] <= log) low = middle;
      else high = middle;
    }
    const share = (log - logs[low]) / (logs[high] - logs[low]);
    return this.#floorPa + Math.exp(this.#firstLog + (low + share) * STEP);
  }

  /** Where a pressure stands in the table, in steps. */
  #entryOf(systemPa: number): number {
    return (Math.log(systemPa - this.#floorPa) - this.#firstLog) / STEP;
  }

  /** Seconds per m³ from an entry, which may lie between two, down to the first. */
  #since(entry: number): number {
    if (!(entry >= 0)) return Number.NEGATIVE_INFINITY;
    const k = Math.min(Math.floor(entry), this.#seconds.length - 2);
    return this.#seconds[k] + this.#within(k, Math.min(1, entry - k));
  }

  /** The integral from an entry on over a share of the step to the next, the rate taken as exponential between them. */
  #within(k: number, share: number): number {
    const bend = this.#logRate[k + 1] - this.#logRate[k];
    const rate = Math.exp(this.#logRate[k]);
    return STEP * rate * (Math.abs(bend * share) < 1e-9 ? share : Math.expm1(bend * share) / bend);
  }
}
