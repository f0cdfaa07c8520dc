import { siteAtmosphere } from '../facts/site-atmosphere.ts';
import {
  durationText,
  lengthText,
  massPerLengthText,
  massText,
  pressureChangeText,
  gaugePressureText,
  riseRateText,
  temperatureChangeText,
  temperatureText,
  type UnitSystem,
  vacuumText,
  volumeText,
  yearlyLossText,
} from '../units/display.ts';
import type { Check, Evidence } from './check.ts';

/** How a figure is said, by the end of its name; the first that fits. A gauge counts from the `atmosphere_pa` of the evidence. */
const texts: readonly (readonly [name: RegExp, text: (value: number, system: UnitSystem, airPa: number) => string])[] =
  [
    [/_pa_per_s$/, riseRateText],
    [/_kg_per_m$/, massPerLengthText],
    [/_kg_per_year$/, yearlyLossText],
    [/_per_s$/, (value) => `${value} per s`],
    [/_drop(_[a-z]+)?_pa$/, pressureChangeText],
    [/_(test|gauge)_pa$/, (value, system, airPa) => gaugePressureText(value, airPa, system)],
    [/_pa$/, vacuumText],
    [/_kg$/, massText],
    [/(^|_)(cooling|superheat|subcooling|off)(_[a-z]+)*_k$/, temperatureChangeText],
    [/_k$/, temperatureText],
    [/_m$/, lengthText],
    [/_l$/, volumeText],
    [/_s$/, durationText],
    [/_ratio$/, (value) => `${(value * 100).toFixed(1)} %`],
  ];

/**
 * The sentence of a finding: its message's template, filled from the evidence in the reader's units.
 *
 * @example messageText(targetNotReached, 'reached', { deepest_pa: 30, target_pa: 33.33 }, 'ip')
 */
export function messageText(check: Check, messageId: string, evidence: Evidence, system: UnitSystem): string {
  const template = check.messages[messageId] ?? messageId;
  return template.replace(/\{(\w+)\}/g, (_, name: string) => figureText(name, evidence, system));
}

/** A figure of the evidence as people read it. */
function figureText(name: string, evidence: Evidence, system: UnitSystem): string {
  const value: Evidence[string] | null = evidence[name];
  if (value === undefined || value === null) return 'unknown';
  if (typeof value === 'string') return value;
  const { atmosphere_pa: airPa } = evidence;
  const [, text] = texts.find(([end]) => end.test(name)) ?? [];
  return text === undefined
    ? String(value)
    : text(value, system, typeof airPa === 'number' ? airPa : siteAtmosphere(undefined));
}
