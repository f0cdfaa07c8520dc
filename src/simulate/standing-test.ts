import type { Random } from '../numerics/random.ts';
import { virialDensity, virialPressure } from './nitrogen-virial.ts';
import { WallTemperature, type Weather } from './wall-temperature.ts';

/** A part of the circuit that stands in a weather of its own. */
export interface CircuitPart {
  /** Of the volume; all shares add up to 1. */
  readonly share: number;
  readonly weather: Weather;
}

/** A stage: filled to a pressure, then held. */
export interface TestStage {
  /** Pressure to fill to [Pa], absolute. */
  readonly toPa: number;
  readonly fillS: number;
  readonly holdS: number;
}

/** How the loss goes with the pressure: a channel finer than the free path, a short hole, a long capillary. */
export type LeakSort = 'molecular' | 'hole' | 'laminar';

/** A standing pressure test: what is filled, how, and what is lost. */
export interface StandingTest {
  readonly volumeM3: number;
  readonly atmospherePa: number;
  readonly parts: readonly CircuitPart[];
  readonly stages: readonly TestStage[];
  /** Nitrogen lost at the pressure of the last stage [mol/s], and how that goes with the pressure. */
  readonly leakMolPerS: number;
  readonly leakSort: LeakSort;
  /** How much warmer the gas is than the wall right after a filling from the atmosphere [K], below 0 colder; how fast it evens out [s]. */
  readonly fillingK: number;
  readonly settlingS: number;
  /** How long the nitrogen is let off at the end [s]; undefined where the log ends before. */
  readonly releaseS: number | undefined;
  /** Before and after, at the atmosphere [s]. */
  readonly idleS: number;
}

/** A pressure gauge. */
export interface TestGauge {
  readonly stepPa: number;
  /** Standard deviation of single readings [Pa]. */
  readonly noisePa: number;
  /** Reads that much too high, as a ratio of the gauge pressure; and that much more per kelvin of the air. */
  readonly gainRatio: number;
  readonly perKRatio: number;
  readonly zeroPa: number;
  readonly intervalS: number;
  /** Spread of its random walk over one second [Pa]; absent: none. */
  readonly walkPa?: number;
}

/** A pipe clamp. */
export interface TestClamp {
  /** Which part it sits on. */
  readonly part: number;
  readonly offsetK: number;
  /** What it shows of a change, as a ratio. */
  readonly gainRatio: number;
  readonly stepK: number;
  readonly noiseK: number;
  /** How fast it follows the pipe [s]; absent: at once. */
  readonly lagS?: number;
}

/** What was logged and what was true, reading by reading. */
export interface StandingTestRun {
  readonly elapsedS: Float64Array;
  /** As shown, absolute [Pa]. */
  readonly testPa: Float64Array;
  /** As shown [°C]; NaN without a clamp. */
  readonly lineC: Float64Array;
  /** Nitrogen in the circuit [mol]. */
  readonly moles: Float64Array;
  /** Per stage, when its hold began and ended [s]. */
  readonly holds: readonly { readonly startS: number; readonly endS: number }[];
}

/** Longest step of the integration [s]. */
const STEP_S = 20;

/** Runs a standing test: gas of one pressure in parts of different temperature, that leaks and evens out. */
export function runStandingTest(
  random: Random,
  test: StandingTest,
  gauge: TestGauge,
  clamp: TestClamp | undefined,
): StandingTestRun {
  const run = new Run(random, test, gauge, clamp);
  run.idle(test.idleS);
  const holds = test.stages.map((stage) => run.stage(stage));
  if (test.releaseS !== undefined) run.release(test.releaseS);
  return { ...run.columns(), holds };
}

class Run {
  readonly #random: Random;
  readonly #test: StandingTest;
  readonly #gauge: TestGauge;
  readonly #clamp: TestClamp | undefined;
  readonly #walls: WallTemperature[];
  readonly #firstAirK: number;
  readonly #clampK: number;
  /** What the clamp has come to [K], and how far the gauge has walked [Pa]. */
  #followedK: number;
  #walkedPa = 0;
  readonly #rows: [number, number, number, number][] = [];
  #nowS = 0;
  #untilReadS = 0;
  /** Warmer than the wall by [K]. */
  #excessK = 0;
  #moles: number;

  constructor(random: Random, test: StandingTest, gauge: TestGauge, clamp: TestClamp | undefined) {
    this.#random = random;
    this.#test = test;
    this.#gauge = gauge;
    this.#clamp = clamp;
    this.#walls = test.parts.map(({ weather }) => new WallTemperature(random, weather));
    this.#firstAirK = this.#walls[0].airK;
    this.#clampK = this.#walls[clamp?.part ?? 0].temperatureK;
    this.#followedK = this.#clampK;
    this.#moles = this.#molesAt(test.atmospherePa);
  }

  idle(durationS: number): void {
    this.#run(durationS, () => this.#moles);
  }

  stage({ toPa, fillS, holdS }: TestStage): { startS: number; endS: number } {
    const fromPa = this.#pressure();
    const beganS = this.#nowS;
    const risen = Math.log(toPa / fromPa) / Math.log(50);
    this.#run(fillS, () => {
      const share = Math.min(1, (this.#nowS - beganS) / fillS);
      this.#excessK = this.#test.fillingK * risen * share;
      return this.#molesAt(fromPa + (toPa - fromPa) * share);
    });
    const startS = this.#nowS;
    this.#run(holdS, (stepS) => this.#moles - this.#loss() * stepS);
    return { startS, endS: this.#nowS };
  }

  release(durationS: number): void {
    const fromPa = this.#pressure();
    const beganS = this.#nowS;
    const { atmospherePa, idleS } = this.#test;
    this.#run(durationS + idleS, () => {
      const share = Math.min(1, (this.#nowS - beganS) / durationS);
      return this.#molesAt(fromPa + (atmospherePa - fromPa) * share);
    });
  }

  columns(): Omit<StandingTestRun, 'holds'> {
    const column = (place: number) => {
      const values = new Float64Array(this.#rows.length);
      for (const [at, row] of this.#rows.entries()) values[at] = row[place];
      return values;
    };
    return { elapsedS: column(0), testPa: column(1), lineC: column(2), moles: column(3) };
  }

  #run(durationS: number, molesAfter: (stepS: number) => number): void {
    const endS = this.#nowS + durationS;
    while (this.#nowS < endS - 1e-6) {
      const stepS = Math.min(endS - this.#nowS, Math.max(1e-3, this.#untilReadS), STEP_S);
      for (const wall of this.#walls) wall.advance(stepS);
      this.#excessK *= Math.exp(-stepS / this.#test.settlingS);
      this.#follow(stepS);
      this.#nowS += stepS;
      this.#untilReadS -= stepS;
      this.#moles = molesAfter(stepS);
      if (this.#untilReadS <= 1e-6) this.#read();
    }
  }

  #follow(stepS: number): void {
    const { part = 0, lagS = 0 } = this.#clamp ?? {};
    const wallK = this.#walls[part].temperatureK;
    this.#followedK = wallK + (lagS > 0 ? (this.#followedK - wallK) * Math.exp(-stepS / lagS) : 0);
    const { walkPa = 0 } = this.#gauge;
    if (walkPa > 0) this.#walkedPa += this.#random.normal(0, walkPa * Math.sqrt(stepS));
  }

  #read(): void {
    const { stepPa, noisePa, gainRatio, perKRatio, zeroPa, intervalS } = this.#gauge;
    const { atmospherePa } = this.#test;
    this.#untilReadS = intervalS;
    const gaugePa = this.#pressure() - atmospherePa;
    const gain = 1 + gainRatio + perKRatio * (this.#walls[0].airK - this.#firstAirK);
    const readPa = gaugePa * gain + zeroPa + this.#walkedPa + this.#random.normal(0, noisePa);
    const shownPa = stepPa > 0 ? Math.round(readPa / stepPa) * stepPa : readPa;
    this.#rows.push([this.#nowS, Math.max(0, shownPa + atmospherePa), this.#lineC(), this.#moles]);
  }

  #lineC(): number {
    const clamp = this.#clamp;
    if (clamp === undefined) return Number.NaN;
    const changeK = this.#followedK - this.#clampK;
    const readC =
      this.#clampK + clamp.gainRatio * changeK + clamp.offsetK + this.#random.normal(0, clamp.noiseK) - 273.15;
    return Math.round(readC / clamp.stepK) * clamp.stepK;
  }

  /** Lost now [mol/s]. */
  #loss(): number {
    const { leakMolPerS, leakSort, stages, atmospherePa: outPa } = this.#test;
    if (leakMolPerS === 0) return 0;
    const drive = (pa: number) =>
      leakSort === 'molecular' ? pa - outPa : leakSort === 'hole' ? pa : pa ** 2 - outPa ** 2;
    const pressurePa = this.#pressure();
    if (pressurePa <= outPa) return 0;
    return (leakMolPerS * drive(pressurePa)) / drive(stages.at(-1)?.toPa ?? pressurePa);
  }

  /** What the circuit holds at a pressure [mol]. */
  #molesAt(pressurePa: number): number {
    let sum = 0;
    for (const [index, { share }] of this.#test.parts.entries())
      sum += share * virialDensity(pressurePa, this.#walls[index].temperatureK + this.#excessK);
    return sum * this.#test.volumeM3;
  }

  /** Pressure in the circuit [Pa]: the one at which it holds what is in it. */
  #pressure(): number {
    const first = this.#walls[0].temperatureK + this.#excessK;
    let pressurePa = virialPressure(this.#moles / this.#test.volumeM3, first);
    // Of one part that is it.
    for (let round = 0; round < 6 && this.#walls.length > 1; round += 1)
      pressurePa *= this.#moles / this.#molesAt(pressurePa);
    return pressurePa;
  }
}
