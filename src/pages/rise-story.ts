import { riseCourse } from '../checks/rise-course.ts';
import { outdoorPart } from '../facts/tested-volume.ts';
import type { Facts } from '../records/tables/facts.ts';
import { durationText, riseRateText, type UnitSystem, vacuumText, withoutUnit } from '../units/display.ts';
import type { StoryLimits, StoryMaterial } from './story-material.ts';

/** A valve-off known no better than within this is said with its range [s]. */
export const sharpS = 15;
/** Equalisation is worth a word from this share of the rise on. */
const settlingShare = 0.2;
/** Pressures that differ by no more than this share of the rise, or this ratio, tell the same. */
const sameShare = 0.1;
const sameRatio = 0.03;

/** What happened after valve-off: how long it was watched, how the pressure rose, of what, and how sure that is. */
export function riseStory(material: StoryMaterial): string[] {
  const { facts } = material;
  const { isolation_start_s: startS, isolation_end_s: endS } = facts;
  if (startS === undefined || endS === undefined) return [notIsolated(facts)];
  return [watched(material, endS - startS), rose(material), madeOf(facts, material.units)];
}

function notIsolated({ rise_shape, pumped_until, turns_up }: Partial<Facts>): string {
  if (turns_up === true)
    return 'At the end the pressure turns up a little, as after a valve-off, but the source marks none; no rise was judged.';
  const ending = pumped_until === 'log-end' ? 'The log ends with the pump still on' : 'No valve-off shows';
  if (rise_shape === 'undecided')
    return `${ending}; on a very tight, dry system a valve-off may hide in the long flat stretch at the end. No rise was judged.`;
  return pumped_until === 'log-end'
    ? `${ending}, so it shows no rise.`
    : 'The system was not isolated under vacuum, so there is no rise to tell leaks or moisture by.';
}

function watched({ facts, limits, units }: StoryMaterial, lastedS: number): string {
  const { isolation_start_low_s: lowS, isolation_start_high_s: highS, isolation_end_s: endS = 0 } = facts;
  const from = facts.isolation_pa === undefined ? '' : ` at ${vacuumText(facts.isolation_pa, units)}`;
  const isSharp = lowS === undefined || highS === undefined || highS - lowS <= sharpS;
  const isMarked = facts.isolation_basis === 'mark';
  const unsharp = () =>
    isMarked
      ? 'the pressure itself does not show when'
      : `${durationText(endS - (highS ?? 0))} to ${durationText(endS - (lowS ?? 0))}, as the valve-off does not show sharply`;
  const remarks = [
    isSharp ? '' : unsharp(),
    limits.testS === undefined || limits.testS === 0 ? '' : `${durationText(limits.testS)} asked for`,
  ].filter((remark) => remark !== '');
  const marked = isMarked ? 'By the mark in the log it' : 'It';
  const beside = remarks.length === 0 ? '' : ` (${remarks.join('; ')})`;
  return `${marked} was valved off${from} and watched for ${durationText(lastedS)}${beside}.`;
}

function rose(material: StoryMaterial): string {
  const { facts, units } = material;
  const { isolation_pa: fromPa, isolation_end_pa: toPa, rise_pa: risePa } = facts;
  if (fromPa === undefined || toPa === undefined || risePa === undefined) return '';
  const [from, to, by] = [fromPa, toPa, risePa].map((pa) => vacuumText(pa, units));
  const accuracy = facts.gauge_accuracy_ratio;
  const gauge = accuracy === undefined ? '' : ` (by a gauge good to ${Number((100 * accuracy).toPrecision(2))} %)`;
  const moved = facts.isolation_over
    ? `The pressure went above the gauge's range; its last reading within it was ${to}${gauge}`
    : risePa > 0
      ? `The pressure rose by ${by}, to ${to}${gauge}`
      : `The pressure did not rise: ${from}, then ${to}${gauge}`;
  return `${moved}${allowed(material)}.`;
}

/** What was allowed; and what there was when the limit counts, where the end of the test tells something else. */
function allowed({ facts, limits, units }: StoryMaterial): string {
  const { limitPa, limitKind, judgedPa, judgedS = 0 } = limits;
  const { isolation_pa: fromPa = 0, isolation_end_pa: toPa = 0, rise_pa: risePa = 0 } = facts;
  if (limitPa === undefined) return '';
  const limit = vacuumText(limitPa, units);
  const isRise = limitKind === 'rise';
  const limitLevelPa = isRise ? fromPa + limitPa : limitPa;
  const tellsTheSame = (atPa: number) =>
    toPa - atPa <= Math.max(sameShare * risePa, sameRatio * toPa) && atPa > limitLevelPa === toPa > limitLevelPa;
  if (judgedPa === undefined || tellsTheSame(judgedPa))
    return isRise ? `; a rise of ${limit} was allowed` : `; at most ${limit} was allowed`;
  const then = isRise
    ? `it had risen by ${vacuumText(judgedPa - fromPa, units)}`
    : `it was at ${vacuumText(judgedPa, units)}`;
  return `; after ${durationText(judgedS)}, when the limit counts, ${then} of ${limit} allowed`;
}

/** What the rise was made of, and how sure that is. */
function madeOf(facts: Partial<Facts>, units: UnitSystem): string {
  const { rise_shape: shape, rise_pa: risePa = 0, vapour_rise_pa: vapourPa, settling_rise_pa: settlingPa = 0 } = facts;
  const { leak_pa_per_s: leak, leak_low_pa_per_s: low, leak_high_pa_per_s: high } = facts;
  if (leak === undefined || low === undefined || high === undefined)
    return risePa > 0 ? 'The readings are too few to tell what it was made of.' : '';
  if (risePa <= 0) return `A leak is at most ${riseRateText(high, units)}.`;
  const most = `A leak explains at most ${riseRateText(high, units)} of it`;
  const steady = `${riseRateText(leak, units)} (${withoutUnit(riseRateText(low, units))} to ${withoutUnit(riseRateText(high, units))}, 95 %)`;
  const settling =
    shape !== 'settling' && settlingPa > settlingShare * risePa
      ? ` ${vacuumText(settlingPa, units)} came at once, as pressures evened out.`
      : '';
  switch (shape) {
    case 'dry':
      return `That is next to nothing. ${most}.`;
    case 'settling':
      return `It came at once, as pressures evened out after valve-off. ${most}.`;
    case 'leak':
      return `It climbed steadily by ${steady}, as with a leak.${settling}`;
    case 'moisture':
      return `It slackened, as with moisture or outgassing${headsFor(facts, units)}. ${most}.${settling}`;
    case 'mixed': {
      const slackened = vapourPa === undefined ? 'Part' : vacuumText(vapourPa, units);
      return `${slackened} of it slackened, as with moisture or outgassing; ${steady} did not, as with a leak.${settling}`;
    }
    default:
      return low > 0
        ? `The curve does not tell leak from moisture or outgassing, but ${withoutUnit(riseRateText(low, units))} to ${riseRateText(high, units)} of it is steady (95 %).${settling}`
        : `The curve does not tell what it was made of: a leak of up to ${riseRateText(high, units)}, moisture or outgassing.${settling}`;
  }
}

function headsFor(facts: Partial<Facts>, units: UnitSystem): string {
  const { plateau_pa, plateau_low_pa, plateau_high_pa } = facts;
  if (plateau_pa === undefined) return '';
  if (plateau_high_pa === undefined)
    return plateau_low_pa === undefined ? '' : `, towards a level of ${vacuumText(plateau_low_pa, units)} or more`;
  const range = `${withoutUnit(vacuumText(plateau_low_pa ?? plateau_pa, units))} to ${vacuumText(plateau_high_pa, units)}`;
  return `, and ${riseCourse(facts)} ${vacuumText(plateau_pa, units)} (${range})`;
}

/** What the rise test could not have shown, unless a finding says it. */
export function unseenStory({ facts, job, limits, blindIsSaid, units }: StoryMaterial): string[] {
  const { smallest_rise_seen_pa_per_s: rise, rise_shape: shape } = facts;
  const sentences: string[] = [];
  if (rise !== undefined && !blindIsSaid)
    sentences.push(
      `A leak of less than ${riseRateText(rise, units)} would not have shown.`,
      ...(shape === 'leak' || shape === 'mixed' ? [] : [told(facts, limits, units)]),
    );
  if (facts.isolation_start_s !== undefined && job !== undefined && outdoorPart(job) === 'shut')
    sentences.push(outdoorUnit(job.charge_basis !== undefined, facts.pressure_hold_start_s !== undefined));
  return sentences;
}

/** That the outdoor unit stayed shut, as the record has it or as is usual. */
function outdoorUnit(isRecorded: boolean, wereBoth: boolean): string {
  const part = wereBoth ? 'part of neither test' : 'not part of this test';
  return isRecorded
    ? `The outdoor unit, shut on its charge, was ${part}.`
    : `The outdoor unit is taken to have been shut on its charge, and so ${part}.`;
}

/** From what size on a leak would have been told for one; only where it is within what was allowed. */
function told(facts: Partial<Facts>, { limitPa, limitKind }: StoryLimits, units: UnitSystem): string {
  const { smallest_leak_seen_pa_per_s: leak, isolation_pa, isolation_start_s, isolation_end_s } = facts;
  if (leak === undefined || isolation_pa === undefined || limitPa === undefined) return '';
  const roomPa = limitKind === 'rise' ? limitPa : limitPa - isolation_pa;
  if (leak * ((isolation_end_s ?? 0) - (isolation_start_s ?? 0)) > roomPa) return '';
  return `Only from ${riseRateText(leak, units)} on would such a test have proved a leak; a smaller one would have been left open.`;
}
