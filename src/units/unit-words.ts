import { type GaugeUnitName, gaugeUnitNames } from './gauge-pressure.ts';
import { type UnitName, unitNames } from './unit.ts';

export type AnyUnitName = UnitName | GaugeUnitName;

export const anyUnitNames: readonly AnyUnitName[] = [...unitNames, ...gaugeUnitNames];

const degrees = (...names: string[]): string[] =>
  names.flatMap((name) => [
    name,
    ...['°', 'deg', 'degree', 'degrees'].flatMap((word) => [`${word}${name}`, `${word} ${name}`]),
  ]);
const gauge = (...names: string[]): string[] => names.flatMap((name) => [`${name} g`, `${name} gauge`, `${name} gage`]);
const absolute = (...names: string[]): string[] =>
  names.flatMap((name) => [`${name} a`, `${name} abs`, `${name} absolute`]);

/** What people write besides a unit's own name. */
const synonyms: { readonly [Name in AnyUnitName]?: readonly string[] } = {
  F: ['℉', ...degrees('F', 'Fahrenheit')],
  C: ['℃', ...degrees('C', 'Celsius', 'centigrade')],
  psig: gauge('psi'),
  barg: gauge('bar'),
  kPag: gauge('kPa'),
  psia: absolute('psi'),
  bar: ['bara', ...absolute('bar')],
  kPa: ['kPaa', ...absolute('kPa')],
  micron: ['microns', 'µm', 'um', 'µmHg', 'umHg', 'µm Hg', 'um Hg'],
  Torr: absolute('mmHg', 'mm Hg'),
  inHga: absolute('inHg', 'in Hg'),
  inHgv: ['inHg vacuum', 'inHg vac', 'in Hg vacuum', 'in Hg vac'],
  kg: ['kilogram', 'kilograms'],
  g: ['gram', 'grams'],
  lb: ['lbs', 'pound', 'pounds', '#'],
  oz: ['ounce', 'ounces'],
  m: ['metre', 'metres', 'meter', 'meters'],
  ft: ["'", '′', 'foot', 'feet'],
  in: ['"', '″', 'inch', 'inches'],
  s: ['sec', 'second', 'seconds'],
  min: ['mins', 'minute', 'minutes'],
  h: ['hr', 'hrs', 'hour', 'hours'],
  L: ['litre', 'litres', 'liter', 'liters'],
  ft3: ['ft³', 'cu ft', 'cuft', 'cubic foot', 'cubic feet'],
  cfm: ['ft³/min'],
};

/** Words that do not say what they count from, where only an absolute pressure makes sense. */
const bareUnits = new Map<string, UnitName>([
  ['psi', 'psia'],
  ['inhg', 'inHga'],
  ['in hg', 'inHga'],
  ['mmhg', 'Torr'],
  ['mm hg', 'Torr'],
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
 * @returns the unit's name; undefined where the word is unknown or leaves a doubt
 * @example unitOfWord('PSIG') // 'psig'
 */
export function unitOfWord(word: string, bareIsAbsolute = false): AnyUnitName | undefined {
  const plain = word.replaceAll('μ', 'µ');
  const lowerCase = plain.toLowerCase();
  const unit = unitsByWord.get(plain) ?? unitsByLowerCase.get(lowerCase);
  return unit ?? (bareIsAbsolute ? bareUnits.get(lowerCase) : undefined);
}
