import { durationText, massText, type UnitSystem, vacuumText } from '../units/display.ts';
import type { Check, Evidence } from './check.ts';

/**
 * The sentence of a finding: its message's template, filled from the evidence in the reader's units.
 *
 * @example messageText(targetNotReached, 'reached', { deepest_pa: 30, target_pa: 33.33 }, 'ip')
 */
export function messageText(check: Check, messageId: string, evidence: Evidence, system: UnitSystem): string {
  const template = check.messages[messageId] ?? messageId;
  return template.replace(/\{(\w+)\}/g, (_, name: string) => figureText(name, evidence[name], system));
}

/** A figure of the evidence as people read it; the suffix of its name is its unit. */
function figureText(name: string, value: Evidence[string] | null, system: UnitSystem): string {
  if (value === undefined || value === null) return 'unknown';
  if (typeof value === 'string') return value;
  if (name.endsWith('_pa')) return vacuumText(value, system);
  if (name.endsWith('_kg')) return massText(value, system);
  if (name.endsWith('_s')) return durationText(value);
  if (name.endsWith('_ratio')) return `${(value * 100).toFixed(1)} %`;
  return String(value);
}
