import { lossSize } from '../checks/leak-kind.ts';
import { siteAtmosphere } from '../facts/site-atmosphere.ts';
import { outdoorPart } from '../facts/tested-volume.ts';
import type { Facts } from '../records/tables/facts.ts';
import {
  durationText,
  pressureChangeText,
  gaugePressureText,
  temperatureChangeText,
  temperatureText,
  type UnitSystem,
  volumeText,
  yearlyLossText,
} from '../units/display.ts';
import { rangeText } from '../units/range-text.ts';
import { uncertainChangeText } from '../units/uncertain-change-text.ts';
import { uncertainRiseText } from '../units/uncertain-rise-text.ts';
import type { LimitOrigin, StoryMaterial } from './story-material.ts';

/** What a leak would lose is said for a system that stands. */
const standing = 'standing at 70 °F (21 °C), as an order of magnitude';
/** The pipe's coldest and warmest are worth a word where they are so far beyond its ends [K]. */
export const asideK = 1;
/** Where the pipe moved by less [K], start and end cannot tell another drop than all readings because of it. */
const movedK = 1;

/**
 * What happened in a standing pressure test, as one would tell it: how high, in how many holds, how long; what the
 * pressure and the pipe did; the drop that temperature does not explain and how sure that is; then what the test could
 * not have seen.
 *
 * Judges nothing; what was asked for stands beside what was measured.
 *
 * @returns no paragraph where none was asked for, otherwise one or two
 */
export function pressureTestStory(material: StoryMaterial): string[] {
  const { facts } = material;
  const { pressure_readings: readings, pressure_problem: problem } = facts;
  if (problem === 'not-opened') return [];
  if (readings === undefined) return ['No log of a pressure test came with this job.'];
  if (problem === 'too-few-readings')
    return [`The log of the pressure test has too few readings to tell what happened (${readings}).`];
  if (problem === 'other-unit')
    return ['The pressure of the test looks like another unit than its column says, so nothing is told of it.'];
  if (problem === 'time-unit')
    return ['The times of the pressure test look like another unit than seconds, so nothing is told of it.'];
  if (problem === 'below-air')
    return ['The log of the pressure test never shows a pressure worth the name above that of the air.'];
  if (problem === 'cut') return [`${wentUp(material)}; there the log ends.`];
  if (problem === 'never-held' || facts.pressure_hold_start_s === undefined)
    return [`${wentUp(material)}; the log never shows the system shut in and watched.`];
  const happened = [stood(material), ...(problem === 'gap' ? [gap] : held(material))];
  return [happened, problem === 'gap' ? [] : unseen(material)]
    .map((sentences) => sentences.filter((sentence) => sentence !== '').join(' '))
    .filter((paragraph) => paragraph !== '');
}

const gap = 'A gap in the log hides too much of that, so nothing is said of how the pressure held.';

/** A pressure of the test as people read it. */
function testText({ facts, units }: StoryMaterial, pa: number): string {
  return gaugePressureText(pa, facts.atmosphere_pa ?? siteAtmosphere(undefined), units);
}

function wentUp(material: StoryMaterial): string {
  const { highest_test_pa: highestPa } = material.facts;
  const { testTargetPa, testTargetFrom } = material.limits;
  if (highestPa === undefined) return 'The system was pressure-tested';
  const asked = testTargetPa === undefined ? '' : wanted(testText(material, testTargetPa), testTargetFrom);
  return `The pressure test went up to ${testText(material, highestPa)}${asked}`;
}

/** A limit beside what was measured, with who set it. */
function wanted(text: string, from: LimitOrigin = 'record'): string {
  return { record: ` (${text} asked for)`, practice: ` (${text} is usual)`, policy: ` (${text} by the policy)` }[from];
}

function stood(material: StoryMaterial): string {
  const {
    pressure_hold_start_s: startS = 0,
    pressure_hold_end_s: endS = 0,
    pressure_stages: holds = 1,
  } = material.facts;
  const { standAskedS, standFrom } = material.limits;
  const asked = standAskedS === undefined || standAskedS === 0 ? '' : wanted(durationText(standAskedS), standFrom);
  const shutIn = `the system stood shut in for ${durationText(endS - startS)}${asked}`;
  if (holds < 2) return `${wentUp(material)}, and ${shutIn}.`;
  return `${wentUp(material)}; the log shows ${holds} holds. In the last one at full pressure, which is told here, ${shutIn}.`;
}

/** What pressure and pipe did in the hold, and what temperature does not explain of it. */
function held(material: StoryMaterial): string[] {
  const { facts, units } = material;
  const { held_test_pa: heldPa, end_test_pa: endPa, read_drop_pa: readPa } = facts;
  const {
    pressure_hold_start_s: startS = 0,
    pressure_settled_s: settledS = startS,
    pressure_hold_end_s: endS = 0,
  } = facts;
  if (heldPa === undefined || endPa === undefined) return [];
  const leftOut =
    settledS > startS
      ? `Of that the first ${durationText(settledS - startS)}, in which the gas settles, are left out. `
      : '';
  const moved = `${leftOut}In the ${durationText(endS - settledS)}${leftOut === '' ? '' : ' after that'} the pressure went from ${testText(material, heldPa)} to ${testText(material, endPa)}`;
  const { held_line_k: heldK, end_line_k: endK, expected_end_test_pa: expectedPa } = facts;
  if (heldK === undefined || endK === undefined || expectedPa === undefined)
    return [`${moved}.`, withoutTemperature(readPa ?? heldPa - endPa, facts, units)];
  return [
    `${moved}, and the pipe from ${temperatureText(heldK, units)} to ${temperatureText(endK, units)}${between(facts, units)}, by which alone a tight system would have gone to ${testText(material, expectedPa)}.`,
    dropped(facts, expectedPa - endPa, units),
    lost(facts, units),
  ];
}

/** How cold and how warm the pipe was on the way, where the ends do not tell. */
function between(facts: Partial<Facts>, units: UnitSystem): string {
  const {
    held_line_k: heldK = 0,
    end_line_k: endK = 0,
    coldest_line_k: lowK = heldK,
    warmest_line_k: highK = endK,
  } = facts;
  if (lowK > Math.min(heldK, endK) - asideK && highK < Math.max(heldK, endK) + asideK) return '';
  return ` (between ${temperatureText(lowK, units)} and ${temperatureText(highK, units)} on the way)`;
}

function withoutTemperature(
  readPa: number,
  { explaining_cooling_k: coolingK }: Partial<Facts>,
  units: UnitSystem,
): string {
  const needed =
    'The temperature of the pipe was not logged from end to end; a clamp on it, logged from the filling to the end, is what it takes to tell a leak from the weather.';
  if (readPa <= 0) return `It did not fall, but gas that grew warmer may hide a drop. ${needed}`;
  const cooled =
    coolingK === undefined
      ? ''
      : ` Without a leak the gas would have to have cooled by ${temperatureChangeText(coolingK, units)} for that.`;
  return `As read it fell by ${pressureChangeText(readPa, units)}.${cooled} ${needed}`;
}

/** The corrected drop and how sure it is. */
function dropped(facts: Partial<Facts>, gapPa: number, units: UnitSystem): string {
  const { pressure_drop_pa: dropPa, pressure_drop_low_pa: lowPa, pressure_drop_high_pa: highPa } = facts;
  if (dropPa === undefined || lowPa === undefined || highPa === undefined)
    return 'The readings are too few to tell a drop from what temperature did.';
  const all = 'All readings taken together,';
  if (highPa < 0)
    return `${all} it ended higher than temperature explains, by ${uncertainChangeText({ pa: -dropPa, lowPa: -highPa, highPa: -lowPa }, units)}, as where gas grew warmer and the clamp did not.`;
  const { coldest_line_k: coldestK = 0, warmest_line_k: warmestK = coldestK } = facts;
  const aside =
    warmestK - coldestK >= movedK && (gapPa < lowPa || gapPa > highPa)
      ? ' Start and end alone say otherwise, as where the gas does not go along with the pipe all the way; the drop allows for that.'
      : '';
  const rise = uncertainRiseText({ pa: dropPa, lowPa, highPa }, units);
  if (rise !== undefined)
    return `${all} there is no drop that temperature does not explain; if anything the pressure rose, by ${rise}.${aside}`;
  const none = lowPa > 0 ? '' : ', so there may be none';
  return `${all} the drop that temperature does not explain is ${uncertainChangeText({ pa: dropPa, lowPa, highPa }, units)}${none}.${aside}`;
}

/** What a drop that is there would lose as a leak. */
function lost(facts: Partial<Facts>, units: UnitSystem): string {
  const { pressure_drop_low_pa: lowPa = 0, test_loss_low_kg_per_year: low, test_loss_high_kg_per_year: high } = facts;
  return lowPa > 0 ? asLeak('The drop is', facts, [low, high], units) : '';
}

/** A drop as a leak; empty where volume or refrigerant is not known. */
function asLeak(
  subject: string,
  facts: Partial<Facts>,
  [low, high]: readonly [number | undefined, number | undefined],
  units: UnitSystem,
): string {
  const { tested_volume_l: volumeL, tested_volume_basis: basis } = facts;
  const size = lossSize(facts, low, high);
  if (size === undefined || low === undefined || high === undefined || volumeL === undefined) return '';
  const loses =
    size === 'whole-charge'
      ? 'may lose the whole charge within a year or far sooner'
      : `would lose ${rangeText(yearlyLossText(low, units), yearlyLossText(high, units))} a year`;
  return `${subject}, on the ${volumeText(volumeL, units)} tested${basis === 'estimated' ? ' (estimated)' : ''}, a leak that ${loses}, ${standing}.`;
}

/** What the pressure test could not have shown, unless a finding says it. */
function unseen({ facts, job, pressureBlindIsSaid, units }: StoryMaterial): string[] {
  const { smallest_drop_seen_pa: leastPa } = facts;
  const { smallest_test_loss_low_kg_per_year: low, smallest_test_loss_high_kg_per_year: high } = facts;
  const isShut = job !== undefined && facts.isolation_start_s === undefined && outdoorPart(job) === 'shut';
  const isRecorded = job?.charge_basis !== undefined;
  const outdoor = !isShut
    ? ''
    : isRecorded
      ? 'The outdoor unit, shut on its charge, was not part of this test.'
      : 'The outdoor unit is taken to have been shut on its charge, and so not to have been part of this test.';
  if (leastPa === undefined || pressureBlindIsSaid) return [outdoor];
  return [
    `A drop of ${pressureChangeText(leastPa, units)} would have been told for one four times of five, a smaller one less often.`,
    asLeak('Such a drop is', facts, [low, high], units),
    outdoor,
  ];
}
