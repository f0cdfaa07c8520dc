import type { ErrorParameters } from '../errors.ts';
import { isGaugeUnitName } from './gauge-pressure.ts';
import type { Part } from './join-parts.ts';
import { fromSi, type Quantity, siOf } from './quantity.ts';
import { roundedUp } from './rounded-up.ts';
import { fromInterchange } from './unit.ts';

/** What a caller takes of a quantity: both limits in SI, included. */
export interface QuantityRange {
  /** What messages call the quantity. */
  readonly name: string;
  readonly lowest: number;
  readonly highest: number;
}

/**
 * Why a quantity cannot be, or is not in the range that a caller takes, in the unit that was written.
 *
 * @param part what was written for `quantity`
 * @param range left out, only what physics forbids is a problem: temperatures and pressures not above absolute zero, a vacuum
 * with a minus sign
 * @returns the parameters of the error `out-of-range`; undefined where nothing is wrong
 * @example rangeProblem(quantityOf(0, 'psia'), { value: 0, unit: 'psia' })?.bound // 'above 0'
 */
export function rangeProblem(
  quantity: Quantity,
  { value, unit }: Part,
  range?: QuantityRange,
): ErrorParameters['out-of-range'] | undefined {
  const problem = (name: string, bound: string) => ({ quantity: `${name} [${unit}]`, bound, received: value });
  // A range above 0 takes in what physics forbids, and says it by the name and bounds of the caller.
  const isBounded = range !== undefined && range.lowest > 0;
  if (isGaugeUnitName(unit)) {
    if (unit === 'inHgv' && value < 0) return problem('vacuum', 'at least 0, counted down from the atmosphere');
  } else if (quantity.kind === 'absolute-pressure') {
    if (!isBounded && !(quantity.pressurePa > 0)) return problem('absolute pressure', 'above 0');
  } else if (quantity.kind === 'temperature') {
    // Absolute zero in °F is only near 0 K after rounding.
    const impossible = !isBounded && !(quantity.temperatureK > 1e-9);
    if (impossible) return problem('temperature', `above ${fromInterchange(-273.15, unit).toFixed(2)}, absolute zero`);
  }
  if (range === undefined) return undefined;
  const { name, lowest, highest } = range;
  const si = siOf(quantity);
  if (si >= lowest && si <= highest) return undefined;
  return problem(name, `${roundedUp(fromSi(lowest, unit))} to ${-roundedUp(-fromSi(highest, unit))}`);
}
