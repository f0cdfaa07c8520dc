import type { SteadyCycle } from './cycle-options.ts';
import { steadyCycle } from './refrigeration-cycle.ts';
import type { RunMode, RunModeSpan, RunTestOptions } from './run-test.ts';

/** Where a running system tends to; logarithms of pressures [Pa], lines and air [°C]. */
export interface Course {
  lnSuction: number;
  lnLiquid: number;
  suctionC: number;
  liquidC: number;
  supplyC: number;
  compressorW: number;
}
export const courseKeys = ['lnSuction', 'lnLiquid', 'suctionC', 'liquidC', 'supplyC', 'compressorW'] as const;

const tending = (cycle: SteadyCycle): Course => ({
  lnSuction: Math.log(cycle.suctionPa),
  lnLiquid: Math.log(cycle.liquidPa),
  suctionC: cycle.suctionLineK - 273.15,
  liquidC: cycle.liquidLineK - 273.15,
  supplyC: cycle.supplyC,
  compressorW: cycle.compressorW,
});

interface Segment {
  readonly fromS: number;
  readonly to: Course;
  readonly mode: RunMode;
}

/** Steps over which the cycle's answer to the weather is taken [K]. */
const OUTDOOR_STEP_K = 3;
const INDOOR_STEP_K = -2;

/** A machine's steady states through a test: a few solved ones, and between them its answer to the weather, straight. */
export class RunCourse {
  readonly #segments: Segment[] = [];
  readonly #perOutdoorK: Course;
  readonly #perIndoorK: Course;

  constructor(options: RunTestOptions) {
    const { random, restS, durationS, trim, faults, outdoorC, indoorC, indoorWetBulbC } = options;
    const modulates = options.compressor === 'variable' && options.fixedTestMode !== true;
    const solve = (chargeRatio: number, speedRatio: number, outdoorK = 0, indoorK = 0): Course => {
      const air = {
        outdoorC: outdoorC + outdoorK,
        indoorC: indoorC + indoorK,
        indoorWetBulbC: indoorWetBulbC + 0.8 * indoorK,
      };
      const cycle = { ...options, ...faults, chargeRatio, speedRatio };
      if (options.heating !== true) return tending(steadyCycle({ ...cycle, ...air }));
      // The coils change places: the outdoor air is what is cooled.
      const swapped = { outdoorC: air.indoorC, indoorC: air.outdoorC, indoorWetBulbC: air.outdoorC - 1.5 };
      const { meteringLocation: _, ...reversed } = cycle;
      const heated = steadyCycle({ ...reversed, ...swapped });
      const heatW = heated.coolingW + heated.compressorW;
      return { ...tending(heated), supplyC: air.indoorC + heatW / (0.055 * options.ratedCoolingW * 1.01) };
    };
    let chargeRatio = faults?.chargeRatio ?? 1;
    let speedRatio = 1;
    const changes = [{ atS: restS, speedRatio: modulates ? random.uniform(0.75, 1) : 1, chargeRatio }];
    if (trim !== undefined) changes.push({ atS: trim.atS, speedRatio: Number.NaN, chargeRatio: trim.chargeRatio });
    for (let atS = restS; modulates; ) {
      atS += random.uniform(150, 600);
      if (atS >= durationS) break;
      changes.push({ atS, speedRatio: random.uniform(0.45, 1), chargeRatio: Number.NaN });
    }
    const mode = options.heating === true ? 'heating' : 'cooling';
    for (const change of changes.sort((a, b) => a.atS - b.atS)) {
      if (!Number.isNaN(change.speedRatio)) speedRatio = change.speedRatio;
      if (!Number.isNaN(change.chargeRatio)) chargeRatio = change.chargeRatio;
      this.#segments.push({ fromS: change.atS, to: solve(chargeRatio, speedRatio), mode });
    }
    const [first] = this.#segments;
    const [{ chargeRatio: firstRatio, speedRatio: firstSpeed }] = changes;
    const slope = (to: Course, stepK: number) => {
      const per = { ...to };
      for (const key of courseKeys) per[key] = (to[key] - first.to[key]) / stepK;
      return per;
    };
    this.#perOutdoorK = slope(solve(firstRatio, firstSpeed, OUTDOOR_STEP_K), OUTDOOR_STEP_K);
    this.#perIndoorK = slope(solve(firstRatio, firstSpeed, 0, INDOOR_STEP_K), INDOOR_STEP_K);
    if (mode === 'heating' && outdoorC < 5 && random.chance(0.4)) this.#defrost(random.uniform(restS + 300, durationS));
  }

  /** The cycle turns round for some minutes: the outdoor coil takes the heat, roughly. */
  #defrost(fromS: number): void {
    const before = this.#segments.findLast((one) => one.fromS <= fromS) ?? this.#segments[0];
    const { to } = before;
    const turned = {
      ...to,
      lnSuction: to.lnSuction - 0.3,
      lnLiquid: to.lnLiquid - 0.5,
      liquidC: to.liquidC - 15,
      supplyC: 12,
    };
    this.#segments.push({ fromS, to: turned, mode: 'defrost' }, { ...before, fromS: fromS + 200 });
    this.#segments.sort((a, b) => a.fromS - b.fromS);
  }

  /** When something was last changed that it has to settle from [s]. */
  get lastChangeS(): number {
    return this.#segments[this.#segments.length - 1].fromS;
  }

  get modes(): RunModeSpan[] {
    const spans: RunModeSpan[] = [{ fromS: 0, mode: undefined }];
    for (const { fromS, mode } of this.#segments)
      if (spans[spans.length - 1].mode !== mode) spans.push({ fromS, mode });
    return spans;
  }

  /** Where it tends to at a moment, with the air so much warmer than at the start [K]. */
  at(atS: number, outdoorK: number, indoorK: number): Course {
    const { to } = this.#segments.findLast((one) => one.fromS <= atS) ?? this.#segments[0];
    const course = { ...to };
    for (const key of courseKeys) course[key] += outdoorK * this.#perOutdoorK[key] + indoorK * this.#perIndoorK[key];
    return course;
  }
}
