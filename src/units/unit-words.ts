import { type GaugeUnitName, gaugeUnitNames } from './gauge-pressure.ts';
import { type UnitName, unitNames } from './unit.ts';

export type AnyUnitName = UnitName | GaugeUnitName;

export const anyUnitNames: readonly AnyUnitName[] = [...unitNames, ...gaugeUnitNames];

/** What people write besides a unit's own name. */
const synonyms: { readonly [Name in AnyUnitName]?: readonly string[] } = {
  F: ['°F', 'degF', 'deg F'],
  C: ['°C', 'degC', 'deg C'],
  bar: ['bara'],
  kPa: ['kPaa'],
  micron: ['microns', 'µm', 'um', 'µmHg', 'umHg', 'µm Hg', 'um Hg'],
  inHga: ['inHg absolute', 'inHg abs', 'in Hg absolute', 'in Hg abs'],
  inHgv: ['inHg vacuum', 'inHg vac', 'in Hg vacuum', 'in Hg vac'],
  kg: ['kilogram', 'kilograms'],
  g: ['gram', 'grams'],
  lb: ['lbs', 'pound', 'pounds'],
  oz: ['ounce', 'ounces'],
  m: ['metre', 'metres', 'meter', 'meters'],
  ft: ["'", '′', 'foot', 'feet'],
  in: ['"', '″', 'inch', 'inches'],
  s: ['sec', 'second', 'seconds'],
  min: ['mins', 'minute', 'minutes'],
  h: ['hr', 'hrs', 'hour', 'hours'],
  L: ['litre', 'litres', 'liter', 'liters'],
  cfm: ['ft³/min'],
};

/** Words that do not say what they count from: what to write, and the unit where only an absolute pressure makes sense. */
const openWords = new Map<string, { write: string; absolute: UnitName }>([
  ['psi', { write: 'psig or psia', absolute: 'psia' }],
  ['inhg', { write: '"inHg vacuum" (below the atmosphere) or inHga (absolute)', absolute: 'inHga' }],
  ['in hg', { write: '"inHg vacuum" (below the atmosphere) or inHga (absolute)', absolute: 'inHga' }],
  ['mmhg', { write: 'Torr (absolute)', absolute: 'Torr' }],
]);

/** Every word as it is written; then in lower case, but for MPa: an mPa is something else, and no unit here. */
const unitsByWord = new Map(
  anyUnitNames.flatMap((name) => [name, ...(synonyms[name] ?? [])].map((word): [string, AnyUnitName] => [word, name])),
);
const unitsByLowerCase = new Map(
  [...unitsByWord].filter(([word]) => word !== 'MPa').map(([word, name]) => [word.toLowerCase(), name]),
);

/**
 * The unit that a word means, whatever its case where that leaves no doubt.
 *
 * @param bareIsAbsolute whether psi, inHg and mmHg with nothing said may be read as absolute, as of a barometer
 * @returns the unit's name; what to write instead, where the word says neither gauge nor absolute; undefined where it is unknown
 * @example unitOfWord('PSIG') // { unit: 'psig' }
 */
export function unitOfWord(
  word: string,
  bareIsAbsolute = false,
): { unit: AnyUnitName } | { write: string } | undefined {
  const plain = word.replaceAll('μ', 'µ');
  const unit = unitsByWord.get(plain) ?? unitsByLowerCase.get(plain.toLowerCase());
  if (unit !== undefined) return { unit };
  const open = openWords.get(plain.toLowerCase());
  if (open === undefined) return undefined;
  return bareIsAbsolute ? { unit: open.absolute } : { write: open.write };
}
