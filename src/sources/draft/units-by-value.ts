import { isGaugeUnitName } from '../../units/gauge-pressure.ts';
import { toInterchange } from '../../units/unit.ts';
import type { AnyUnitName } from '../../units/unit-words.ts';

/** A unit that the values alone suggest, with why, in words. */
export interface GuessedUnit {
  readonly unit: AnyUnitName;
  readonly why: string;
}

const atmospherePa = 101_325;
/** Units in which vacuum gauges show an absolute pressure; the atmosphere is another number in each. */
const vacuumUnits = ['micron', 'Pa', 'mbar', 'Torr', 'kPa', 'inHga', 'psia', 'bar'] as const;

const highest = (values: readonly number[]) => values.reduce((most, value) => Math.max(most, value), -Infinity);
const lowest = (values: readonly number[]) => values.reduce((least, value) => Math.min(least, value), Infinity);

/**
 * The likeliest unit of a vacuum gauge that tells none: the one in which its highest reading is nearest to the atmosphere,
 * where it comes near one at all; else by how far it goes down.
 */
export function vacuumUnit(values: readonly number[]): GuessedUnit {
  const top = highest(values);
  const low = lowest(values);
  const near = vacuumUnits
    .map((unit) => ({ unit, off: Math.abs(Math.log((toInterchange(1, unit) * top) / atmospherePa)) }))
    .toSorted((a, b) => a.off - b.off)[0];
  // A log that begins late has a highest reading too: only one that falls far begins at the atmosphere.
  const falls = low < top / 100 || top > 50_000;
  if (near.off < 0.25 && falls)
    return { unit: near.unit, why: `its highest reading, ${top}, is about the atmosphere in ${near.unit}` };
  if (top > 50) return { unit: 'micron', why: `its readings go from ${low} to ${top}, as those in microns do` };
  return { unit: top > 3 ? 'mbar' : 'Torr', why: `its readings go from ${low} to ${top} only` };
}

/** Whether readings fall from the atmosphere, in whichever unit, to a hundredth of it or less. */
export function fallsToVacuum(values: readonly number[]): boolean {
  if (values.length < 3 || lowest(values) < 0) return false;
  const top = highest(values);
  const near = vacuumUnits.some((unit) => Math.abs((toInterchange(1, unit) * top) / atmospherePa - 1) < 0.1);
  const early = values.slice(0, Math.ceil(values.length / 3));
  return near && lowest(values) < top / 20 && highest(early) > top / 3;
}

/** Whether readings go down in steps and stand between them, as those of a cylinder's scale do. */
export function fallsInSteps(values: readonly number[]): boolean {
  if (values.length < 8 || lowest(values) < 0) return false;
  const changes = values.slice(1).map((value, index) => value - values[index]);
  const down = changes.filter((change) => change < 0).length;
  const up = changes.filter((change) => change > 0).length;
  const stands = changes.filter((change) => change === 0).length;
  return down > up * 3 && stands > values.length / 5 && values.at(-1)! < values[0] && values.at(-1)! > values[0] * 0.2;
}

/** The likeliest unit of temperatures that tell none, all of a file together. */
export function temperatureUnit(values: readonly number[]): GuessedUnit {
  const top = highest(values);
  const sorted = values.toSorted((a, b) => a - b);
  const middle = sorted[Math.floor(sorted.length / 2)] ?? 0;
  const range = `readings go from ${lowest(values)} to ${top}`;
  if (lowest(values) > 200) return { unit: 'K', why: `${range}, which is too hot for anything but kelvin` };
  if (middle > 48 || top > 95) return { unit: 'F', why: `${range}, which is too hot for °C` };
  return { unit: 'C', why: `${range}, as usual in °C` };
}

/** The likeliest unit of a scale that tells none. */
export function massUnit(values: readonly number[]): GuessedUnit {
  const top = highest(values);
  const range = `readings go up to ${top}`;
  if (top > 400) return { unit: 'g', why: `${range}, which is too heavy for a cylinder in kg, lb or oz` };
  return {
    unit: top > 28 ? 'lb' : 'kg',
    why: `${range}; kg, lb and oz overlap, so that this is little more than a guess`,
  };
}

/** The likeliest unit of a pressure of refrigerant or nitrogen that tells none. */
export function highPressureUnit(values: readonly number[]): GuessedUnit {
  const top = highest(values);
  const range = `readings go up to ${top}`;
  if (top > 60_000) return { unit: 'Pa', why: range };
  if (top > 900) return { unit: 'kPag', why: range };
  if (top > 60) return { unit: 'psig', why: range };
  return { unit: top > 6 ? 'barg' : top > 1.2 ? 'barg' : 'MPa', why: range };
}

/** Which of its two meanings a word such as psi or bar has, of a pressure that is no vacuum: gauges count from the air. */
export function openPressureUnit(text: string, values: readonly number[], isVacuum: boolean): GuessedUnit {
  const word = text.toLowerCase().replaceAll(' ', '');
  const top = highest(values);
  if (word === 'inhg') {
    const rises = (values.at(-1) ?? 0) > (values[0] ?? 0) && lowest(values) < 5;
    return rises && isVacuum
      ? { unit: 'inHgv', why: 'its readings rise from 0, as inches of vacuum do' }
      : { unit: 'inHga', why: `its readings go up to ${top}, as absolute ones do` };
  }
  if (word === 'mmhg') return { unit: 'Torr', why: 'only an absolute pressure makes sense' };
  if (isVacuum && lowest(values) >= 0) return { unit: 'psia', why: 'a vacuum gauge shows absolute pressure' };
  return { unit: 'psig', why: 'gauges of refrigerant and nitrogen count from the air around them' };
}

/** A gauge unit of the same size, where a pressure reads lower than any absolute one would. */
export function gaugeUnitOf(unit: AnyUnitName, values: readonly number[]): AnyUnitName | undefined {
  if (isGaugeUnitName(unit)) return undefined;
  const sizes: Partial<Record<AnyUnitName, AnyUnitName>> = { bar: 'barg', kPa: 'kPag', psia: 'psig' };
  const gauge = sizes[unit];
  if (gauge === undefined || values.length === 0) return undefined;
  return toInterchange(lowest(values), unit) < 0.8 * atmospherePa ? gauge : undefined;
}
