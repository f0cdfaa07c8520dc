import { DryholdError } from '../errors.ts';
import { type GaugePressure, isGaugeUnitName, toGauge } from './gauge-pressure.ts';
import { dimensionOf, toInterchange } from './unit.ts';
import { type AnyUnitName, anyUnitNames } from './unit-words.ts';

/** A quantity in SI, told apart by what it is. */
export type Quantity =
  | { readonly kind: 'temperature'; readonly temperatureK: number }
  | { readonly kind: 'absolute-pressure'; readonly pressurePa: number }
  | { readonly kind: 'gauge-pressure'; readonly gauge: GaugePressure }
  | { readonly kind: 'mass'; readonly massKg: number }
  | { readonly kind: 'length'; readonly lengthM: number }
  | { readonly kind: 'duration'; readonly durationS: number }
  | { readonly kind: 'volume'; readonly volumeM3: number }
  | { readonly kind: 'flow'; readonly flowM3PerS: number }
  | { readonly kind: 'power'; readonly powerW: number };

export type QuantityKind = Quantity['kind'];

/**
 * A value as a quantity in SI; no limit is checked.
 *
 * @param value number in `unit`
 * @example quantityOf(6, 'cfm') // { kind: 'flow', flowM3PerS: 0.002831685 }
 */
export function quantityOf(value: number, unit: AnyUnitName): Quantity {
  if (isGaugeUnitName(unit)) return { kind: 'gauge-pressure', gauge: toGauge(value, unit) };
  const interchange = toInterchange(value, unit);
  switch (dimensionOf(unit)) {
    case 'pressure':
      return { kind: 'absolute-pressure', pressurePa: interchange };
    case 'temperature':
      return { kind: 'temperature', temperatureK: interchange + 273.15 };
    case 'mass':
      return { kind: 'mass', massKg: interchange };
    case 'length':
      return { kind: 'length', lengthM: interchange };
    case 'bore':
      return { kind: 'length', lengthM: interchange / 1000 };
    case 'time':
      return { kind: 'duration', durationS: interchange };
    case 'volume':
      return { kind: 'volume', volumeM3: interchange / 1000 };
    case 'flow':
      return { kind: 'flow', flowM3PerS: interchange / 1000 };
    case 'power':
      return { kind: 'power', powerW: interchange };
    case 'none':
      throw new DryholdError('unknown-unit', { unit, known: anyUnitNames.join(', ') });
  }
}

/**
 * The number in a quantity, in SI.
 *
 * @example siOf({ kind: 'gauge-pressure', gauge: { gaugePa: 100 } }) // 100
 */
export function siOf(quantity: Quantity): number {
  switch (quantity.kind) {
    case 'temperature':
      return quantity.temperatureK;
    case 'absolute-pressure':
      return quantity.pressurePa;
    case 'gauge-pressure':
      return quantity.gauge.gaugePa;
    case 'mass':
      return quantity.massKg;
    case 'length':
      return quantity.lengthM;
    case 'duration':
      return quantity.durationS;
    case 'volume':
      return quantity.volumeM3;
    case 'flow':
      return quantity.flowM3PerS;
    case 'power':
      return quantity.powerW;
  }
}

/**
 * The inverse of `quantityOf`: a number in SI as a number in a unit.
 *
 * @example fromSi(0.3048, 'in') // 12
 */
export function fromSi(si: number, unit: AnyUnitName): number {
  // Every unit is a factor and an offset.
  const zero = siOf(quantityOf(0, unit));
  return (si - zero) / (siOf(quantityOf(1, unit)) - zero);
}
