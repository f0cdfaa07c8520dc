import { DryholdError } from '../errors.ts';
import { mostLengthS } from '../facts/plan/shortest-length.ts';
import type { TestPlan } from '../facts/plan/test-plan.ts';
import { standingVapour } from '../facts/standing-vapour.ts';
import { parseRefrigerant, refrigerantDesignations, standardAtmosphere } from '../physics/index.ts';
import { parseAltitude } from '../units/parse-altitude.ts';
import { parsePercent } from '../units/parse-percent.ts';
import { parsePressureChange } from '../units/parse-pressure-change.ts';
import { parseQuantity } from '../units/parse-quantity.ts';
import { parseTemperatureChange } from '../units/parse-temperature-change.ts';
import { toInterchange } from '../units/unit.ts';
import type { PageOutputOptions } from './page-output.ts';
import { planOption as read } from './plan-option.ts';
import { planTestPressure } from './plan-test-pressure.ts';
import { planVolume, type PlanVolumeOptions } from './plan-volume.ts';

/** The options of `dryhold plan` as they were written. */
export interface PlanOptions extends PageOutputOptions, PlanVolumeOptions {
  readonly refrigerant: string;
  readonly leak?: string;
  readonly time?: string;
  readonly test?: 'rise' | 'nitrogen';
  readonly altitude: string;
  readonly from: string;
  readonly vacuumStep: string;
  readonly vacuumNoise: string;
  readonly readingEvery: string;
  readonly pumped: string;
  readonly pressure: string;
  readonly pressureStep: string;
  readonly temperature: string;
  readonly temperatureUncertainty: string;
}

/** What is assumed where an option is left out. Common practice, no source. */
export const planDefaults = {
  altitude: '0ft',
  from: '200micron',
  vacuumStep: '1micron',
  vacuumNoise: '1%',
  readingEvery: '2s',
  pumped: '30min',
  pressure: '300psig',
  pressureStep: '1psi',
  temperature: '70F',
  temperatureUncertainty: '2F',
} as const satisfies Partial<Record<keyof PlanOptions, string>>;

/** Time between readings of the pressure test [s]. Common practice, no source. */
const pressureIntervalS = 60;
/** Most time that a test is asked about [s]: 30 days. */
const mostTimeS = 2_592_000;
const micronPa = toInterchange(1, 'micron');
/** -40 °F is colder than -40 °C by what a computer rounds [K]. */
const roundingK = 1e-6;

/**
 * The plan that options describe.
 *
 * @throws DryholdError `bad-usage`, which names the option and what is wrong with it
 */
export function planOfOptions(options: PlanOptions): TestPlan {
  const volume = planVolume(options);
  const atmospherePa = read('--altitude', () => standardAtmosphere(parseAltitude(options.altitude)));
  return {
    volumeL: volume.volumeL,
    ...(volume.basis === 'estimated' && { estimated: { ...volume, hasOutdoorUnit: options.withOutdoorUnit === true } }),
    refrigerant: read('--refrigerant', () => refrigerantOf(options.refrigerant)),
    atmospherePa,
    ...(options.test !== 'rise' && { pressureTest: pressureTestOf(options, atmospherePa) }),
    ...(options.test !== 'nitrogen' && { riseTest: riseTestOf(options) }),
  };
}

/** The question that options ask: one length, or a leak, or both; neither for all usual lengths. */
export function planQuestionOf({ leak, time }: PlanOptions): { timeS?: number; lossKgPerYear?: number } {
  return {
    ...(leak !== undefined && { lossKgPerYear: read('--leak', () => lossOf(leak)) }),
    ...(time !== undefined && { timeS: read('--time', () => durationOf(time, 'time', 60, mostTimeS)) }),
  };
}

function riseTestOf(options: PlanOptions): NonNullable<TestPlan['riseTest']> {
  return {
    fromPa: read('--from', () => vacuumOf(options.from, 'pressure at valve-off', micronPa, 20_000 * micronPa)),
    stepPa: read('--vacuum-step', () => vacuumOf(options.vacuumStep, 'step', 0.001 * micronPa, 1000 * micronPa)),
    noiseRatio: read('--vacuum-noise', () =>
      parsePercent(options.vacuumNoise, { name: 'noise', lowest: 0, highest: 0.2 }),
    ),
    intervalS: read('--reading-every', () => durationOf(options.readingEvery, 'time between readings', 0.5, 300)),
    pumpedS: read('--pumped', () => durationOf(options.pumped, 'time', 60, mostLengthS)),
  };
}

function pressureTestOf(options: PlanOptions, atmospherePa: number): NonNullable<TestPlan['pressureTest']> {
  return {
    testPa: read('--pressure', () => planTestPressure(options.pressure, atmospherePa)),
    stepPa: read('--pressure-step', () =>
      parsePressureChange(options.pressureStep, { name: 'step', lowest: 1, highest: 1e6 }),
    ),
    intervalS: pressureIntervalS,
    temperatureK: read('--temperature', () => temperatureOf(options.temperature)),
    temperatureUncertaintyK: read('--temperature-uncertainty', () =>
      parseTemperatureChange(options.temperatureUncertainty, { name: 'uncertainty', lowest: 0, highest: 30 }),
    ),
  };
}

/** The designation of a refrigerant whose vapour is known. */
function refrigerantOf(text: string): string {
  const { designation } = parseRefrigerant(text);
  if (standingVapour(designation) !== undefined) return designation;
  const problem = `"${designation}" has no table of its vapour; known: ${refrigerantDesignations.join(', ')}`;
  throw new DryholdError('bad-usage', { problem });
}

/** A mass, with or without the year that it goes with. */
function lossOf(text: string): number {
  const mass = text.replace(/\s*(?:\/|per|a)\s*(?:y|yr|year)\s*$/i, '');
  const range = { name: 'loss', lowest: 1e-6, highest: 10_000 };
  return parseQuantity(mass, ['mass'], { range, wanted: 'a mass a year, such as 100g or 3.5oz' }).massKg;
}

function durationOf(text: string, name: string, lowest: number, highest: number): number {
  return parseQuantity(text, ['duration'], { range: { name, lowest, highest } }).durationS;
}

function vacuumOf(text: string, name: string, lowest: number, highest: number): number {
  const wanted = 'an absolute pressure, such as 200 micron or 27 Pa';
  return parseQuantity(text, ['absolute-pressure'], { range: { name, lowest, highest }, wanted }).pressurePa;
}

function temperatureOf(text: string): number {
  const range = { name: 'temperature', lowest: 233.15 - roundingK, highest: 343.15 + roundingK };
  return parseQuantity(text, ['temperature'], { range }).temperatureK;
}
