import type { Facts } from '../records/tables/facts.ts';
import { durationText, vacuumText } from '../units/display.ts';
import { riseStory, unseenStory } from './rise-story.ts';
import type { StoryMaterial } from './story-material.ts';

/**
 * What happened on an evacuation, as one would tell it: how far and how fast the vacuum was pulled down, how long it was
 * held, how long the system was isolated, what the rise was and how sure that is; then what the test could not have seen.
 *
 * Judges nothing; what was asked for stands beside what was measured.
 *
 * @returns one paragraph, or two
 */
export function evacuationStory(material: StoryMaterial): string[] {
  const { facts } = material;
  if (facts.vacuum_readings === undefined) return ['No vacuum log came with this job.'];
  if (facts.vacuum_problem === 'compound-gauge')
    return [
      'The vacuum was read on a compound gauge, which cannot tell microns, so nothing is said of how deep it was or how it rose.',
    ];
  if (facts.vacuum_problem === 'too-few-readings')
    return [`The vacuum log has only ${facts.vacuum_readings} readings, too few to tell what happened.`];
  if (facts.vacuum_problem === 'other-unit')
    return ['The vacuum looks like another unit than pascals, so nothing is told of it.'];
  if (facts.vacuum_problem === 'time-unit')
    return ['The times of the vacuum log look like another unit than seconds, so nothing is told of it.'];
  const happened = [
    gaugeOf(facts),
    pulls(facts),
    pullDown(material),
    stall(material),
    hold(material),
    ...riseStory(material),
  ];
  return [happened, unseenStory(material)]
    .map((sentences) => sentences.filter((sentence) => sentence !== '').join(' '))
    .filter((paragraph) => paragraph !== '');
}

/** Which gauge is judged, where several were logged. */
function gaugeOf({ vacuum_gauge: gauge }: Partial<Facts>): string {
  return gauge === undefined ? '' : `Of several gauges this is ${gauge}.`;
}

const countWords = ['', 'once', 'twice', 'three times', 'four times', 'five times', 'six times'];

function pulls({ pulls: count = 0 }: Partial<Facts>): string {
  if (count < 2) return '';
  return `The system was pulled down ${countWords[count] ?? `${count} times`}, broken or valved off in between; what follows is the last pull.`;
}

function pullDown({ facts, limits, units }: StoryMaterial): string {
  const { deepest_pa: deepest, pull_down_s: tookS, pull_down_predicted_s: predictedS } = facts;
  const { pullTargetPa } = limits;
  const target = vacuumText(pullTargetPa, units);
  if (deepest === undefined) return `The gauge stayed above its range; the target was ${target}.`;
  const reached = vacuumText(deepest, units);
  if (facts.pumped_until === undefined) return `The log shows no pull-down; its lowest reading is ${reached}.`;
  if (deepest > pullTargetPa) return `The vacuum came down to ${reached} and not to its target of ${target}.`;
  if (tookS === undefined)
    return `The vacuum came down to ${reached} (target ${target}); how long that took does not show.`;
  const beside =
    predictedS === undefined ? '' : ` (dry gas through this pump and hose: about ${roughDuration(predictedS)})`;
  return `It took ${durationText(tookS)} to pull down to ${target}${beside}, and the lowest was ${reached}.`;
}

/** A predicted time as people say it, no finer than it is known. */
function roughDuration(seconds: number): string {
  const grain = seconds < 20 ? 1 : seconds < 120 ? 5 : seconds < 600 ? 30 : 60;
  return durationText(Math.max(1, grain * Math.round(seconds / grain)));
}

const stallPlaces = { vapour: 'where water boils off', ice: 'near where water freezes' } as const;

function stall({ facts, units }: StoryMaterial): string {
  const { stall_s: stoodS, stall_pa: pa, stall_at: at } = facts;
  if (stoodS === undefined || pa === undefined) return '';
  const place = at === undefined ? 'as when something boils off' : stallPlaces[at];
  return `On the way down it stood for ${durationText(stoodS)} at ${vacuumText(pa, units)}, ${place}.`;
}

function hold({ facts, limits, units }: StoryMaterial): string {
  const { targetPa, heldS, wantedS } = limits;
  if (targetPa === undefined || heldS === undefined || facts.pumped_until === undefined) return '';
  if (heldS === 0 || facts.deepest_pa === undefined) return '';
  const wanted = wantedS === undefined || wantedS === 0 ? '' : ` (${durationText(wantedS)} wanted)`;
  return `With the pump on it stayed at or below ${vacuumText(targetPa, units)} for ${durationText(heldS)}${wanted}.`;
}
