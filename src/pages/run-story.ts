import { siteAtmosphere } from '../facts/site-atmosphere.ts';
import {
  durationText,
  gaugePressureText,
  temperatureChangeText,
  temperatureText,
  withoutUnit,
} from '../units/display.ts';
import { rangeText } from '../units/range-text.ts';
import type { StoryMaterial } from './story-material.ts';

type Facts = StoryMaterial['facts'];

/**
 * What a run test showed: how long the system ran and under what weather, then both sides with their saturation, superheat
 * and subcooling and how sure they are, then the system at rest.
 *
 * @returns one paragraph, or two; none where nothing of a running system was logged
 */
export function runStory(material: StoryMaterial): string[] {
  if (material.facts.run_readings === undefined) return [];
  return [[conditions(material), lowSide(material), highSide(material), air(material)], [rest(material)]]
    .map((sentences) => sentences.filter((sentence) => sentence !== '').join(' '))
    .filter((paragraph) => paragraph !== '');
}

function conditions({ facts, units }: StoryMaterial): string {
  const { run_s: ranS, steady_start_s: startS, steady_end_s: endS } = facts;
  const { run_outdoor_k: outdoorK, run_indoor_k: indoorK, run_indoor_wet_bulb_k: wetBulbK } = facts;
  if (ranS === undefined) return '';
  if (startS === undefined || endS === undefined) return `The system was seen running for ${durationText(ranS)}.`;
  const weather = [
    outdoorK === undefined ? '' : `${temperatureText(outdoorK, units)} outdoors`,
    indoorK === undefined ? '' : `${temperatureText(indoorK, units)} indoors`,
    wetBulbK === undefined ? '' : `${temperatureText(wetBulbK, units)} wet bulb`,
  ].filter((part) => part !== '');
  const at = weather.length === 0 ? '' : `, at ${weather.join(', ')}`;
  return `The system ran for ${durationText(ranS)}; the last ${durationText(endS - startS)} that stood still tell${at}.`;
}

function lowSide({ facts, units }: StoryMaterial): string {
  const { run_suction_pa: pa, run_dew_k: dewK, run_suction_line_k: lineK, superheat_k: superheatK } = facts;
  if (pa === undefined || dewK === undefined) return '';
  const line = lineK === undefined ? '' : `, its line at ${temperatureText(lineK, units)}`;
  const suction = `Suction stood at ${gaugePressureText(pa, airOf(facts), units)} (dew point ${temperatureText(dewK, units)})${line}`;
  if (superheatK === undefined) return `${suction}.`;
  const target =
    facts.target_superheat_k === undefined
      ? ''
      : `, where ${temperatureChangeText(facts.target_superheat_k, units)} ${facts.target_superheat_basis === 'record' ? 'was asked for' : 'is the table’s target'}`;
  return `${suction}: superheat ${uncertain(superheatK, facts.superheat_low_k, facts.superheat_high_k, units)}${target}.`;
}

function highSide({ facts, units }: StoryMaterial): string {
  const { run_liquid_pa: pa, run_bubble_k: bubbleK, run_liquid_line_k: lineK, subcooling_k: subcoolingK } = facts;
  if (facts.liquid_line_phase === 'two-phase')
    return pa === undefined ? '' : 'The metering device sits outdoors, so that the liquid line tells no subcooling.';
  if (pa === undefined || bubbleK === undefined) return '';
  const line = lineK === undefined ? '' : `, its line at ${temperatureText(lineK, units)}`;
  const liquid = `Liquid stood at ${gaugePressureText(pa, airOf(facts), units)} (bubble point ${temperatureText(bubbleK, units)})${line}`;
  if (subcoolingK === undefined) return `${liquid}.`;
  const target =
    facts.target_subcooling_k === undefined
      ? ''
      : `, where the maker asks for ${temperatureChangeText(facts.target_subcooling_k, units)}`;
  return `${liquid}: subcooling ${uncertain(subcoolingK, facts.subcooling_low_k, facts.subcooling_high_k, units)}${target}.`;
}

function air({ facts, units }: StoryMaterial): string {
  const { run_split_k: splitK } = facts;
  return splitK === undefined
    ? ''
    : `The air left the coil ${temperatureChangeText(splitK, units)} cooler than it came.`;
}

/** The system at rest, beside what its refrigerant should show. */
function rest({ facts, job, units }: StoryMaterial): string {
  const { rest_pa: pa, rest_k: restK, rest_expected_pa: expectedPa } = facts;
  if (pa === undefined || restK === undefined || expectedPa === undefined || expectedPa === 0) return '';
  const [read, expected] = [pa, expectedPa].map((each) => gaugePressureText(each, airOf(facts), units));
  return `Before it started, the system stood at ${read}; ${job?.refrigerant ?? 'its refrigerant'} at ${temperatureText(restK, units)}, the colder of outdoors and indoors, has ${expected}.`;
}

function airOf({ atmosphere_pa: airPa }: Facts): number {
  return airPa ?? siteAtmosphere(undefined);
}

function uncertain(
  valueK: number,
  lowK: number | undefined,
  highK: number | undefined,
  units: StoryMaterial['units'],
): string {
  const value = temperatureChangeText(valueK, units);
  if (lowK === undefined || highK === undefined) return value;
  return `${value} (${withoutUnit(rangeText(temperatureChangeText(lowK, units), temperatureChangeText(highK, units)))}, 95 %)`;
}
