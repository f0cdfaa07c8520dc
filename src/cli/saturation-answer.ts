import { absolutePressure } from '../units/gauge-pressure.ts';
import { parseTemperatureOrPressure } from '../units/parse-temperature-or-pressure.ts';
import type { SaturationPoint, SaturationSource } from './saturation-source.ts';

/** A value that was asked for, and what came of it. */
export interface SaturationAnswer {
  /** As it was written. */
  readonly given: string;
  /** True for a pressure that counts from the air around the gauge. */
  readonly gauge: boolean;
  readonly asked: { readonly temperatureK: number } | { readonly pressurePa: number };
  /** A place of the curve, or why there is none. */
  readonly found: SaturationPoint | string;
}

/**
 * What a source's saturation is at a temperature or pressure as a person writes it.
 *
 * @param atmospherePa the site's air [Pa], absolute
 * @throws DryholdError `unreadable-quantity`, and `out-of-range` below absolute zero or a perfect vacuum
 */
export function saturationAnswer(source: SaturationSource, given: string, atmospherePa: number): SaturationAnswer {
  const value = parseTemperatureOrPressure(given);
  if (value.kind === 'temperature') {
    const { temperatureK } = value;
    const found = told(source.atTemperature(temperatureK)) ?? noneAtTemperature(source, temperatureK);
    return { given, gauge: false, asked: { temperatureK }, found };
  }
  const gauge = value.kind === 'gauge-pressure';
  const pressurePa = gauge ? absolutePressure(value.gauge, atmospherePa) : value.pressurePa;
  return {
    given,
    gauge,
    asked: { pressurePa },
    found: told(source.atPressure(pressurePa)) ?? noneAtPressure(source, pressurePa),
  };
}

function told(found: SaturationPoint | 'two-liquids' | undefined): SaturationPoint | string | undefined {
  return found === 'two-liquids' ? 'the liquid parts in two here' : found;
}

function noneAtTemperature(source: SaturationSource, temperatureK: number): string {
  const { lowestK, highestK } = source.ends();
  if (temperatureK < lowestK) return 'colder than the equations reach';
  return temperatureK > highestK ? 'beyond the critical region: never liquid' : 'no saturation found';
}

function noneAtPressure(source: SaturationSource, pressurePa: number): string {
  const { lowestPa, highestPa } = source.ends();
  if (pressurePa < lowestPa) return 'lower than the equations reach';
  return pressurePa > highestPa ? 'beyond the critical region: never boils' : 'no saturation found';
}

/** The answer as other programs rely on it; null for what is not known. The temperature of a pressure is the mean of both sides. */
export function saturationAnswerJson({ given, asked, found }: SaturationAnswer, source: SaturationSource): object {
  const point = typeof found === 'string' ? undefined : found;
  const meanK = point === undefined ? null : (point.bubbleK + point.dewK) / 2;
  return {
    given,
    temperature_k: 'temperatureK' in asked ? asked.temperatureK : meanK,
    bubble_pa: 'pressurePa' in asked ? asked.pressurePa : (point?.bubblePa ?? null),
    dew_pa: 'pressurePa' in asked ? asked.pressurePa : (point?.dewPa ?? null),
    ...('pressurePa' in asked && { bubble_k: point?.bubbleK ?? null, dew_k: point?.dewK ?? null }),
    liquid_density_kg_per_m3: point?.liquidKgPerM3 ?? null,
    vapour_density_kg_per_m3: point?.vapourKgPerM3 ?? null,
    ...(typeof found === 'string' && { problem: found }),
    ...(source.estimatedPairs.length > 0 && { estimated_pairs: source.estimatedPairs }),
  };
}
