import { densityText, psigOrAbsoluteBarText, temperatureText, type UnitSystem, vacuumText } from '../units/display.ts';
import { fromInterchange } from '../units/unit.ts';
import type { SaturationAnswer } from './saturation-answer.ts';
import type { SaturationSource } from './saturation-source.ts';
import { textTable } from './text-table.ts';
import { textWidth, wrappedText } from './wrapped-text.ts';

/** How a person wants to read answers, and for which site. */
export interface SaturationTextOptions {
  readonly units: UnitSystem;
  /** No notes but those that a number must not stand without. */
  readonly quiet?: boolean;
  readonly atmospherePa: number;
  /** Where the atmosphere comes from: `the standard atmosphere at sea level`. */
  readonly site: string;
}

/** Below a twentieth of an atmosphere people speak of a vacuum. */
const VACUUM_PA = 5000;

/** Answers as a table with its notes, in a person's units. */
export function saturationText(
  source: SaturationSource,
  answers: readonly SaturationAnswer[],
  options: SaturationTextOptions,
): string {
  const { units, quiet = false } = options;
  const full = answersTable(answers, options, true);
  const fits = full.split('\n').every((line) => line.length <= textWidth());
  const notes = [
    ...(answers.some(({ found }) => typeof found === 'string') ? [endsText(source, options)] : []),
    ...(source.caution === undefined ? [] : [source.caution]),
    ...(quiet ? [] : source.about),
    ...(quiet || !countsFromAir(answers, units) ? [] : [airText(options)]),
    ...(quiet || !answers.some(({ given }) => /\d\s*bar$/i.test(given))
      ? []
      : ['bar is taken as absolute; barg counts from the air.']),
    ...(quiet || fits ? [] : ['A wider terminal shows densities too.']),
  ];
  return [
    source.designation,
    '',
    fits ? full : answersTable(answers, options, false),
    ...(notes.length > 0 ? ['', ...notes.flatMap((note) => wrappedText(note))] : []),
  ].join('\n');
}

function answersTable(
  answers: readonly SaturationAnswer[],
  options: SaturationTextOptions,
  densities: boolean,
): string {
  const { units } = options;
  const density = (kgPerM3: number | null) => (kgPerM3 === null ? '' : densityText(kgPerM3, units));
  const rows = answers.map(({ given, asked, found }) => {
    const isTemperature = 'temperatureK' in asked;
    const at = isTemperature ? temperatureText(asked.temperatureK, units) : pressureText(asked.pressurePa, options);
    const first = sameUnit(given, at) ? given : `${given} = ${at}`;
    if (typeof found === 'string') return [first, found, '', ...(densities ? ['', ''] : [])];
    const sides = isTemperature
      ? [found.bubblePa, found.dewPa].map((pa) => pressureText(pa, options))
      : [found.bubbleK, found.dewK].map((kelvin) => temperatureText(kelvin, units));
    return [first, ...sides, ...(densities ? [density(found.liquidKgPerM3), density(found.vapourKgPerM3)] : [])];
  });
  return textTable(['at', 'bubble point', 'dew point', ...(densities ? ['liquid', 'vapour'] : [])], rows);
}

function pressureText(pressurePa: number, { units, atmospherePa }: SaturationTextOptions): string {
  return pressurePa < VACUUM_PA
    ? vacuumText(pressurePa, units)
    : psigOrAbsoluteBarText(pressurePa, atmospherePa, units);
}

/** Whether a value was written in the unit that it is shown in. */
function sameUnit(given: string, shown: string): boolean {
  const unit = (text: string) =>
    text
      .toLowerCase()
      .replace(/[^a-zµ]/g, '')
      .replace(/^microns?$/, 'µm');
  return unit(given) === unit(shown);
}

/** Whether any figure rests on the site's air: one that was asked for, or one that is shown. */
function countsFromAir(answers: readonly SaturationAnswer[], units: UnitSystem): boolean {
  return answers.some(
    ({ gauge, asked, found }) =>
      gauge ||
      (units === 'ip' &&
        (('pressurePa' in asked && asked.pressurePa >= VACUUM_PA) ||
          ('temperatureK' in asked && typeof found !== 'string' && found.bubblePa >= VACUUM_PA))),
  );
}

function airText({ units, atmospherePa, site }: SaturationTextOptions): string {
  const air =
    units === 'ip'
      ? `${fromInterchange(atmospherePa, 'psia').toFixed(2)} psia`
      : `${fromInterchange(atmospherePa, 'bar').toFixed(4)} bar`;
  return `Gauge pressures count from ${air}, ${site}.${units === 'si' ? ' Pressures are shown absolute.' : ''}`;
}

function endsText(source: SaturationSource, options: SaturationTextOptions): string {
  const { lowestK, lowestPa, highestK, highestPa } = source.ends();
  const end = (kelvin: number, pa: number) =>
    [temperatureText(kelvin, options.units), ...(Number.isNaN(pa) ? [] : [pressureText(pa, options)])].join(' and ');
  const begin = `The curve of ${source.designation} begins, as far as the equations reach, at ${end(lowestK, lowestPa)}`;
  return Number.isNaN(highestK)
    ? `${begin}.`
    : `${begin}, and ends in the critical region at ${end(highestK, highestPa)}.`;
}
