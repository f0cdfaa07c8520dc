import { DryholdError } from '../errors.ts';
import { mostLengthS } from '../facts/plan/shortest-length.ts';
import type { TestPlan } from '../facts/plan/test-plan.ts';
import { standingVapour } from '../facts/standing-vapour.ts';
import { parseRefrigerant, refrigerantDesignations, standardAtmosphere } from '../physics/index.ts';
import { parseAltitude } from '../units/parse-altitude.ts';
import { parsePercent } from '../units/parse-percent.ts';
import { parseQuantity } from '../units/parse-quantity.ts';
import { parseTemperatureChange } from '../units/parse-temperature-change.ts';
import type { CommonOptions } from './context.ts';

/** The options of `dryhold plan` as they were written. */
export interface PlanOptions extends CommonOptions {
  readonly volume: string;
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
  readonly html?: string;
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
/** How far above the air a test pressure is [Pa]: a cylinder of nitrogen has no more than the most. Common practice, no source. */
const leastTestPa = 1e4;
const mostTestPa = 2e7;
/** Most time that a test is asked about [s]: 30 days. */
const mostTimeS = 2_592_000;
const micronPa = 0.133322368;

/**
 * The plan that options describe.
 *
 * @throws DryholdError `bad-usage`, which names the option and what is wrong with it
 */
export function planOfOptions(options: PlanOptions): TestPlan {
  const atmospherePa = read('--altitude', () => standardAtmosphere(parseAltitude(options.altitude)));
  return {
    volumeL: read('--volume', () => 1000 * volumeOf(options.volume)),
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
    testPa: read('--pressure', () => testPressureOf(options.pressure, atmospherePa)),
    stepPa: read('--pressure-step', () => pressureStepOf(options.pressureStep)),
    intervalS: pressureIntervalS,
    temperatureK: read('--temperature', () => temperatureOf(options.temperature)),
    temperatureUncertaintyK: read('--temperature-uncertainty', () =>
      parseTemperatureChange(options.temperatureUncertainty, { name: 'uncertainty', lowest: 0, highest: 30 }),
    ),
  };
}

function volumeOf(text: string): number {
  const range = { name: 'volume', lowest: 1e-5, highest: 100 };
  return parseQuantity(text, ['volume'], { range }).volumeM3;
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

function pressureStepOf(text: string): number {
  const wanted = 'a change of pressure, such as 1psi, 0.1psi or 5kPa';
  const range = { name: 'step', lowest: 1, highest: 1e6 };
  return parseQuantity(text, ['absolute-pressure'], { bareIsAbsolute: true, range, wanted }).pressurePa;
}

function temperatureOf(text: string): number {
  const range = { name: 'temperature', lowest: 233.15, highest: 343.15 };
  return parseQuantity(text, ['temperature'], { range }).temperatureK;
}

function testPressureOf(text: string, atmospherePa: number): number {
  const wanted = 'a test pressure, such as 300 psig or 20 barg';
  const read = parseQuantity(text, ['gauge-pressure', 'absolute-pressure'], { wanted });
  const testPa = read.kind === 'gauge-pressure' ? read.gauge.gaugePa + atmospherePa : read.pressurePa;
  if (testPa >= atmospherePa + leastTestPa && testPa <= atmospherePa + mostTestPa) return testPa;
  const problem = `must be above the air at the site, by 1.5 psi to 2900 psi (0.1 to 200 bar), received "${text}"`;
  throw new DryholdError('bad-usage', { problem });
}

/** What an option says; what is wrong with it is told by its name. */
function read<Value>(option: string, parse: () => Value): Value {
  try {
    return parse();
  } catch (error) {
    if (error instanceof DryholdError) throw new DryholdError('bad-usage', { problem: `${option}: ${error.message}` });
    throw error;
  }
}
