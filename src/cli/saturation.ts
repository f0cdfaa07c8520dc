import { DryholdError } from '../errors.ts';
import { standardAtmosphere } from '../physics/index.ts';
import { densityText, psigOrAbsoluteBarText, temperatureText, vacuumText } from '../units/display.ts';
import { absolutePressure } from '../units/gauge-pressure.ts';
import { parseAltitude } from '../units/parse-altitude.ts';
import { parseBarometer } from '../units/parse-barometer.ts';
import { parseTemperatureOrPressure } from '../units/parse-temperature-or-pressure.ts';
import { fromInterchange } from '../units/unit.ts';
import { type AddCommand, type CommonOptions, exitStatus, remark, say, sayJson } from './context.ts';
import { type SaturationPoint, type SaturationSource, saturationSource } from './saturation-source.ts';
import { textTable } from './text-table.ts';

interface SaturationOptions extends CommonOptions {
  readonly altitude?: string;
  readonly barometer?: string;
}

/** A value that was asked for, and what came of it. */
interface Answer {
  readonly given: string;
  readonly asked: { readonly temperatureK: number } | { readonly pressurePa: number };
  readonly point: SaturationPoint | undefined;
}

/** Below a twentieth of an atmosphere people speak of a vacuum. */
const VACUUM_PA = 5000;

/** `dryhold saturation`: both sides of the curve for temperatures and pressures. */
export const addSaturation: AddCommand = (program, settle) => {
  program
    .command('saturation')
    .summary('boiling and condensing points of a refrigerant')
    .description(
      'Answers a temperature with the pressures at which a refrigerant boils and condenses there, a pressure with the temperatures, and both with the densities of liquid and vapour.',
    )
    .argument('<refrigerant>', 'R-410A, r32, 454B …; a blend by mass: "R-32/125 (50/50)"; or water')
    .argument('<value...>', 'a temperature (40F, -32.5C) or a pressure (118psig, 8.2bar, "250 micron")')
    .option('--altitude <height>', 'of the site, such as "5000 ft"; sea level where left out')
    .option('--barometer <pressure>', 'at the site itself, such as "24.9 inHg"; wins over --altitude')
    // A value such as -32.5C would pass for an option.
    .allowUnknownOption()
    .addHelpText(
      'after',
      `
psig, barg, kPag and "inHg vacuum" count from the air around the gauge; bar, kPa, psia and micron are absolute.
With --json the temperature_k of a pressure is the mean of its bubble and dew point.

examples:
  dryhold saturation R-410A 40F 118psig
  dryhold saturation R-454B -20F 0F 20F 40F
  dryhold saturation r32 8.2bar --units si
  dryhold saturation "R-32/125/134a (23/25/52)" 70psig --altitude "5000 ft"
  dryhold saturation water "500 micron"`,
    )
    .action((refrigerant: string, values: readonly string[], options: SaturationOptions) => {
      const stray = values.find((value) => /^--|^-[^\d.]/.test(value));
      if (stray !== undefined) throw new DryholdError('bad-usage', { problem: `unknown option "${stray}"` });
      const atmospherePa = siteAtmosphere(options);
      const source = saturationSource(refrigerant);
      const answers = values.map((value) => answer(source, value, atmospherePa));
      if (options.json) sayJson(answers.map(answerJson));
      else say(answersText(source, answers, atmospherePa, options));
      if (options.json && !options.quiet && source.remark !== undefined) remark(`dryhold: ${source.remark}`);
      if (answers.some(({ point }) => point === undefined)) settle(exitStatus.refused);
    });
};

function siteAtmosphere({ altitude, barometer }: SaturationOptions): number {
  if (barometer !== undefined) return parseBarometer(barometer);
  return standardAtmosphere(altitude === undefined ? 0 : parseAltitude(altitude));
}

function answer(source: SaturationSource, given: string, atmospherePa: number): Answer {
  const value = parseTemperatureOrPressure(given);
  if (value.kind === 'temperature') {
    const { temperatureK } = value;
    return { given, asked: { temperatureK }, point: source.atTemperature(temperatureK) };
  }
  if (value.kind === 'gauge-pressure' && value.gauge.gaugePa <= -atmospherePa) {
    const vacuum = psigOrAbsoluteBarText(0, atmospherePa, 'ip');
    throw new DryholdError('bad-usage', {
      problem: `${given} is below a perfect vacuum, which is ${vacuum} at this site`,
    });
  }
  const pressurePa =
    value.kind === 'absolute-pressure' ? value.pressurePa : absolutePressure(value.gauge, atmospherePa);
  return { given, asked: { pressurePa }, point: source.atPressure(pressurePa) };
}

function answerJson({ given, asked, point }: Answer): object {
  const of = (value: number | null | undefined) => value ?? null;
  return {
    given,
    temperature_k: 'temperatureK' in asked ? asked.temperatureK : of(point && (point.bubbleK + point.dewK) / 2),
    bubble_pa: 'pressurePa' in asked ? asked.pressurePa : of(point?.bubblePa),
    dew_pa: 'pressurePa' in asked ? asked.pressurePa : of(point?.dewPa),
    ...('pressurePa' in asked && { bubble_k: of(point?.bubbleK), dew_k: of(point?.dewK) }),
    liquid_density_kg_per_m3: of(point?.liquidKgPerM3),
    vapour_density_kg_per_m3: of(point?.vapourKgPerM3),
  };
}

function answersText(
  source: SaturationSource,
  answers: readonly Answer[],
  atmospherePa: number,
  options: SaturationOptions,
): string {
  const { units, quiet = false } = options;
  const temperature = (kelvin: number) => temperatureText(kelvin, units);
  const pressure = (pa: number) =>
    pa < VACUUM_PA ? vacuumText(pa, units) : psigOrAbsoluteBarText(pa, atmospherePa, units);
  const density = (kgPerM3: number | null) => (kgPerM3 === null ? '' : densityText(kgPerM3, units));
  const rows = answers.map(({ given, asked, point }) => {
    const at = 'temperatureK' in asked ? temperature(asked.temperatureK) : pressure(asked.pressurePa);
    if (point === undefined) return [given, at, 'no saturation here', '', '', ''];
    const sides =
      'temperatureK' in asked
        ? [pressure(point.bubblePa), pressure(point.dewPa)]
        : [temperature(point.bubbleK), temperature(point.dewK)];
    return [given, at, ...sides, density(point.liquidKgPerM3), density(point.vapourKgPerM3)];
  });
  const table = textTable(['asked', 'at', 'bubble point', 'dew point', 'liquid', 'vapour'], rows);
  const shown = answers.flatMap(({ asked, point }) => [
    'pressurePa' in asked ? asked.pressurePa : 0,
    point?.bubblePa ?? 0,
  ]);
  const notes = [
    source.remark,
    answers.some(({ point }) => point === undefined) && endsText(source, temperature, pressure),
    ...(quiet ? [] : [source.about, units === 'si' && 'Pressures are absolute.', source.basis]),
    !quiet && units === 'ip' && Math.max(...shown) >= VACUUM_PA && gaugeText(atmospherePa, options),
  ].filter((note) => typeof note === 'string');
  return [source.designation, '', table, ...(notes.length > 0 ? ['', ...notes] : [])].join('\n');
}

function endsText(
  source: SaturationSource,
  temperature: (kelvin: number) => string,
  pressure: (pa: number) => string,
): string {
  const { lowestK, highestK, highestPa } = source.ends();
  return `${source.designation} has a saturation curve from ${temperature(lowestK)} (triple point) to ${temperature(highestK)} and ${pressure(highestPa)} (critical region).`;
}

function gaugeText(atmospherePa: number, { altitude, barometer }: SaturationOptions): string {
  const psia = fromInterchange(atmospherePa, 'psia').toFixed(2);
  if (barometer !== undefined) return `psig counts from the barometer's ${psia} psia.`;
  if (altitude !== undefined) return `psig counts from ${psia} psia, the standard atmosphere at ${altitude}.`;
  return `psig counts from ${psia} psia, the standard atmosphere at sea level; for another site: --altitude or --barometer.`;
}
