import { fromInterchange } from '../../units/unit.ts';

/** Indoor wet bulb of the table's columns [°F]. */
const leastWetBulbF = 50;
const wetBulbStepF = 2;
/** Outdoor dry bulb of its rows [°F]. */
const leastOutdoorF = 55;
const outdoorStepF = 5;
const none = Number.NaN;

/** Superheat at the suction service valve [°F]; no figure where nothing is to be tested. Source: `maker-superheat-table`. */
const superheatsF: readonly (readonly number[])[] = [
  [9, 12, 14, 17, 20, 23, 26, 29, 32, 35, 37, 40, 42, 45],
  [7, 10, 12, 15, 18, 21, 24, 27, 30, 33, 35, 38, 40, 43],
  [none, 6, 10, 13, 16, 19, 21, 24, 27, 30, 33, 36, 38, 41],
  [none, none, 7, 10, 13, 16, 19, 21, 24, 27, 30, 33, 36, 39],
  [none, none, none, 6, 9, 12, 15, 18, 21, 24, 28, 31, 34, 37],
  [none, none, none, none, 5, 8, 12, 15, 18, 21, 25, 28, 31, 35],
  [none, none, none, none, none, none, 8, 11, 15, 19, 22, 26, 30, 33],
  [none, none, none, none, none, none, 5, 9, 13, 16, 20, 24, 27, 31],
  [none, none, none, none, none, none, none, 6, 10, 14, 18, 22, 25, 29],
  [none, none, none, none, none, none, none, none, 8, 12, 15, 20, 23, 27],
  [none, none, none, none, none, none, none, none, 5, 9, 13, 17, 22, 26],
  [none, none, none, none, none, none, none, none, none, 6, 11, 15, 20, 25],
  [none, none, none, none, none, none, none, none, none, none, 8, 14, 18, 23],
];

const fahrenheit = (temperatureK: number) => fromInterchange(temperatureK - 273.15, 'F');

/**
 * Superheat that a system with a fixed orifice should show.
 *
 * @param indoorWetBulbK wet bulb of the air that returns [K]
 * @param outdoorK dry bulb outdoors [K]
 * @returns superheat [K], linear between the table's figures; undefined off the table and next to its dashes
 *
 * Source: `maker-superheat-table`, the first maker's where the two differ by a degree.
 *
 * @example
 * targetSuperheat(290.928, 305.372) // 5.0 (64 °F wet bulb, 90 °F outdoors: 9 °F)
 */
export function targetSuperheat(indoorWetBulbK: number, outdoorK: number): number | undefined {
  const [row, down] = placeOf((fahrenheit(outdoorK) - leastOutdoorF) / outdoorStepF, superheatsF.length);
  const [column, along] = placeOf((fahrenheit(indoorWetBulbK) - leastWetBulbF) / wetBulbStepF, superheatsF[0].length);
  const corner = (below: 0 | 1, right: 0 | 1) => {
    const weight = (below === 1 ? down : 1 - down) * (right === 1 ? along : 1 - along);
    // A corner without weight may be a dash, or off the table.
    return weight === 0 ? 0 : weight * (superheatsF[row + below]?.[column + right] ?? none);
  };
  const superheatF = corner(0, 0) + corner(0, 1) + corner(1, 0) + corner(1, 1);
  return Number.isNaN(superheatF) ? undefined : superheatF / 1.8;
}

/** The entry at or before a place among `count`, and how far it is from it to the next; what lies on an entry but for rounding is on it. */
function placeOf(place: number, count: number): [entry: number, beyond: number] {
  const entry = Math.floor(place + 1e-6);
  const beyond = Math.max(0, place - entry);
  return entry < 0 || entry >= count ? [-1, 0] : [entry, beyond < 1e-6 ? 0 : beyond];
}

/**
 * The same by the rule of thumb, (3 × wet bulb − 80 − dry bulb)/2 in °F: for a person's check, never for a judgement.
 *
 * Source: `charging-field-practice`. Accuracy: root mean square 1.6 °F beside the table, up to 6.5 °F off in the heat.
 *
 * @returns superheat [K]
 * @example ruleOfThumbSuperheat(290.928, 308.706) // 4.44 (64 °F wet bulb, 96 °F outdoors: 8 °F)
 */
export function ruleOfThumbSuperheat(indoorWetBulbK: number, outdoorK: number): number {
  return (3 * fahrenheit(indoorWetBulbK) - 80 - fahrenheit(outdoorK)) / 2 / 1.8;
}
