import { fromGauge, gaugePressure } from './gauge-pressure.ts';
import { fromInterchange, toInterchange } from './unit.ts';

/** Which units people read. */
export type UnitSystem = 'ip' | 'si';

/**
 * A vacuum pressure as people say it: whole microns, or pascals with three significant figures.
 *
 * @param pressurePa absolute pressure [Pa]
 * @example vacuumText(66.661184, 'ip') // '500 µm'
 */
export function vacuumText(pressurePa: number, system: UnitSystem): string {
  if (pressurePa === Number.POSITIVE_INFINITY) return 'over range';
  if (system === 'si') return `${significant(pressurePa)} Pa`;
  const micron = fromInterchange(pressurePa, 'micron');
  return `${Math.abs(micron) < 99.95 ? significant(micron) : signed(micron, 1, grouped(Math.abs(micron).toFixed(0)))} µm`;
}

/**
 * How fast a vacuum rises, as people say it: per minute, to three significant figures.
 *
 * @param risePaPerS rise [Pa/s]
 * @example riseRateText(0.0133322368, 'ip') // '6.00 µm/min'
 */
export function riseRateText(risePaPerS: number, system: UnitSystem): string {
  const paPerMin = risePaPerS * 60;
  if (system === 'si') return `${significant(paPerMin)} Pa/min`;
  return `${significant(fromInterchange(paPerMin, 'micron'))} µm/min`;
}

/**
 * A refrigerant mass as people say it: ounces below a pound, pounds and ounces above; grams below a kilogram.
 *
 * @param massKg mass [kg], may be negative
 * @example massText(0.1, 'ip') // '3.5 oz'
 */
export function massText(massKg: number, system: UnitSystem): string {
  const size = Math.abs(massKg);
  if (system === 'si') {
    const grams = Math.round(size * 1000);
    return signed(massKg, grams, grams < 1000 ? `${grams} g` : `${grouped((grams / 1000).toFixed(3))} kg`);
  }
  const tenths = Math.round(fromInterchange(size, 'oz') * 10);
  const pounds = Math.floor(tenths / 160);
  const ounces = `${((tenths % 160) / 10).toFixed(1)} oz`;
  return signed(massKg, tenths, pounds === 0 ? ounces : `${grouped(pounds.toFixed(0))} lb ${ounces}`);
}

/**
 * A mass of refrigerant as it stands in accounts: pounds and hundredths, or kilograms and grams.
 *
 * @param massKg mass [kg], may be negative
 * @example bookedMassText(11.34, 'ip') // '25.00 lb'
 */
export function bookedMassText(massKg: number, system: UnitSystem): string {
  return system === 'si' ? `${fixed(massKg, 3)} kg` : `${fixed(fromInterchange(massKg, 'lb'), 2)} lb`;
}

/**
 * A length of line as people say it.
 *
 * @param lengthM length [m]
 * @example lengthText(7.5, 'ip') // '24.6 ft'
 */
export function lengthText(lengthM: number, system: UnitSystem): string {
  return system === 'si' ? `${fixed(lengthM, 1)} m` : `${fixed(fromInterchange(lengthM, 'ft'), 1)} ft`;
}

/**
 * What a length of line takes, as makers print it: g/m or oz/ft.
 *
 * @param massKgPerM mass per length [kg/m]
 * @example massPerLengthText(0.0251, 'ip') // '0.27 oz/ft'
 */
export function massPerLengthText(massKgPerM: number, system: UnitSystem): string {
  if (system === 'si') return `${fixed(massKgPerM * 1000, 1)} g/m`;
  return `${fixed(fromInterchange(massKgPerM, 'oz') * toInterchange(1, 'ft'), 2)} oz/ft`;
}

/**
 * What a leak loses in a year, as people say it, without "a year": an order of magnitude, so to two significant figures.
 *
 * @param lossKgPerYear loss [kg/year], 0 or more
 * @example yearlyLossText(0.0517, 'ip') // '1.8 oz'
 */
export function yearlyLossText(lossKgPerYear: number, system: UnitSystem): string {
  const [small, large] = (system === 'si' ? (['g', 'kg'] as const) : (['oz', 'lb'] as const)).map((unit) => ({
    size: fromInterchange(lossKgPerYear, unit),
    unit,
  }));
  const shown = Number(large.size.toPrecision(2)) < 1 ? small : large;
  if (shown.size > 0 && shown.size < 0.001) return `under 0.001 ${shown.unit}`;
  return `${twoFigures(shown.size)} ${shown.unit}`;
}

/**
 * A volume as people say it, to three significant figures.
 *
 * @param volumeL volume [L]
 * @example volumeText(5, 'ip') // '0.177 ft³'
 */
export function volumeText(volumeL: number, system: UnitSystem): string {
  if (system === 'si') return `${significant(volumeL)} L`;
  return `${significant(fromInterchange(volumeL, 'ft3'))} ft³`;
}

/**
 * A duration as people say it.
 *
 * @param durationS duration [s]
 * @example durationText(905) // '15 min 5 s'
 */
export function durationText(durationS: number): string {
  const whole = Math.round(Math.abs(durationS));
  if (whole < 120) return signed(durationS, whole, `${whole} s`);
  const minutes = Math.floor(whole / 60);
  const rest = whole % 60;
  if (minutes >= 120) {
    const hours = `${grouped(Math.floor(minutes / 60).toFixed(0))} h`;
    return signed(durationS, whole, minutes % 60 === 0 ? hours : `${hours} ${minutes % 60} min`);
  }
  return signed(durationS, whole, rest === 0 ? `${minutes} min` : `${minutes} min ${rest} s`);
}

/**
 * A temperature as people say it, to a tenth of a degree.
 *
 * @param temperatureK temperature [K]
 * @example temperatureText(277.594, 'ip') // '40.0 °F'
 */
export function temperatureText(temperatureK: number, system: UnitSystem): string {
  const celsius = temperatureK - 273.15;
  return system === 'si' ? `${fixed(celsius, 1)} °C` : `${fixed(fromInterchange(celsius, 'F'), 1)} °F`;
}

/**
 * A pressure as people say it: gauge in ip, as psig, or below the atmosphere as inHg of vacuum; absolute in si, as bar.
 *
 * @param pressurePa pressure [Pa], absolute
 * @param atmospherePa the site's atmosphere [Pa], absolute
 * @throws DryholdError `out-of-range` below a perfect vacuum
 * @example psigOrAbsoluteBarText(920000, 101325, 'ip') // '118.7 psig'
 */
export function psigOrAbsoluteBarText(pressurePa: number, atmospherePa: number, system: UnitSystem): string {
  if (system === 'si') return `${fixed(fromInterchange(pressurePa, 'bar'), 2)} bar`;
  const gauge = gaugePressure(pressurePa, atmospherePa);
  const psig = fromGauge(gauge, 'psig');
  // Nearer to the atmosphere than this, it is 0.0 psig.
  if (psig > -0.05) return `${fixed(psig, 1)} psig`;
  return `${fixed(fromGauge(gauge, 'inHgv'), 1)} inHg vacuum`;
}

/**
 * A test pressure as a gauge shows it: psig, or bar from the air's pressure on; below the air as `psigOrAbsoluteBarText` in ip.
 *
 * @param pressurePa pressure [Pa], absolute
 * @param atmospherePa the site's atmosphere [Pa], absolute
 * @throws DryholdError `out-of-range` below a perfect vacuum
 * @example gaugePressureText(2859325, 101325, 'si') // '27.58 bar gauge'
 */
export function gaugePressureText(pressurePa: number, atmospherePa: number, system: UnitSystem): string {
  if (system === 'ip') return psigOrAbsoluteBarText(pressurePa, atmospherePa, 'ip');
  return `${fixed(fromInterchange(gaugePressure(pressurePa, atmospherePa).gaugePa, 'bar'), 2)} bar gauge`;
}

/**
 * A change of a pressure as people say it: psi or bar, to three significant figures, but no finer than a hundredth of a psi.
 *
 * @param changePa change of a pressure [Pa]
 * @example pressureChangeText(6894.757, 'ip') // '1.00 psi'
 */
export function pressureChangeText(changePa: number, system: UnitSystem): string {
  return system === 'si'
    ? `${significant(fromInterchange(changePa, 'bar'), 4)} bar`
    : `${significant(fromInterchange(changePa, 'psia'), 2)} psi`;
}

/**
 * A change of a temperature as people say it, to a tenth of a degree.
 *
 * @param changeK change of a temperature [K]
 * @example temperatureChangeText(10, 'ip') // '18.0 °F'
 */
export function temperatureChangeText(changeK: number, system: UnitSystem): string {
  return system === 'si' ? `${fixed(changeK, 1)} K` : `${fixed(changeK * 1.8, 1)} °F`;
}

/**
 * A density as people say it, to three significant figures.
 *
 * @param densityKgPerM3 density [kg/m³]
 * @example densityText(989, 'ip') // '61.7 lb/ft³'
 */
export function densityText(densityKgPerM3: number, system: UnitSystem): string {
  if (system === 'si') return `${significant(densityKgPerM3)} kg/m³`;
  return `${significant(fromInterchange(densityKgPerM3, 'lb') * toInterchange(1, 'ft') ** 3)} lb/ft³`;
}

/**
 * A figure without its unit, where another with the same unit follows.
 *
 * @param text as the other functions here give it
 * @example withoutUnit(vacuumText(66.661184, 'ip')) // '500'
 */
export function withoutUnit(text: string): string {
  return text.replace(/(?: bar gauge| inHg vacuum| [^ ]*)$/, '');
}

/** So many decimals. */
function fixed(value: number, decimals: number): string {
  const digits = Math.abs(value).toFixed(decimals);
  return signed(value, Number(digits), grouped(digits));
}

/** A text with a minus sign before it where the value is below zero; what rounds to nothing has no sign. */
function signed(value: number, rounded: number, text: string): string {
  return value < 0 && rounded !== 0 ? `−${text}` : text;
}

/** Three significant figures, or all digits before the point, never in exponent form; so many decimals at most. */
function significant(value: number, mostDecimals = 6): string {
  const size = Math.abs(value);
  if (size < 0.5 * 10 ** -mostDecimals) return '0';
  const digits = Math.min(mostDecimals, Math.max(0, 2 - Math.floor(Math.log10(Number(size.toPrecision(3))))));
  return signed(value, 1, grouped(size.toFixed(digits)));
}

/** Two significant figures, the digits after them 0, never in exponent form. */
function twoFigures(size: number): string {
  const rounded = Number(size.toPrecision(2));
  if (rounded === 0) return '0';
  return grouped(rounded.toFixed(Math.max(0, 1 - Math.floor(Math.log10(rounded)))));
}

/** Thousands set apart by a no-break space, in the digits before the point. */
function grouped(digits: string): string {
  const [whole = '', decimals] = digits.split('.');
  const set = whole.replace(/\B(?=(\d{3})+(?!\d))/g, '\u00a0');
  return decimals === undefined ? set : `${set}.${decimals}`;
}
