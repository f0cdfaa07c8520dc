import {
  durationText,
  massText,
  riseRateText,
  temperatureText,
  type UnitSystem,
  vacuumText,
  volumeText,
  yearlyLossText,
} from '../units/display.ts';
import type { Check, Evidence } from './check.ts';

/** How a figure is said, by the suffix of its name; the first that fits. */
const texts: readonly (readonly [suffix: string, text: (value: number, system: UnitSystem) => string])[] = [
  ['_pa_per_s', riseRateText],
  ['_kg_per_year', yearlyLossText],
  ['_per_s', (value) => `${value} per s`],
  ['_pa', vacuumText],
  ['_kg', massText],
  ['_k', temperatureText],
  ['_l', volumeText],
  ['_s', durationText],
  ['_ratio', (value) => `${(value * 100).toFixed(1)} %`],
];

/**
 * The sentence of a finding: its message's template, filled from the evidence in the reader's units.
 *
 * @example messageText(targetNotReached, 'reached', { deepest_pa: 30, target_pa: 33.33 }, 'ip')
 */
export function messageText(check: Check, messageId: string, evidence: Evidence, system: UnitSystem): string {
  const template = check.messages[messageId] ?? messageId;
  return template.replace(/\{(\w+)\}/g, (_, name: string) => figureText(name, evidence[name], system));
}

/** A figure of the evidence as people read it. */
function figureText(name: string, value: Evidence[string] | null, system: UnitSystem): string {
  if (value === undefined || value === null) return 'unknown';
  if (typeof value === 'string') return value;
  const known = texts.find(([suffix]) => name.endsWith(suffix));
  return known === undefined ? String(value) : known[1](value, system);
}
