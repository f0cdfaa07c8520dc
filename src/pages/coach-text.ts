import type { Sureness } from '../fleet/coaching/coaching-topics.ts';
import type { CoachReport, CoachTopic, TopicPair } from './coach-data.ts';
import { dayText } from './day-text.ts';
import { namedId } from './named-id.ts';
import { countText, groupedCount } from './share-text.ts';
import { excessText, laidToText, unitText } from './standing-out-text.ts';

const sureWords: Readonly<Record<Sureness, string>> = {
  'stands-out': 'Stands out in the whole fleet, beyond chance.',
  likely: 'More than expected nine times of ten, though among so many comparisons some are so by chance.',
  'may-be-chance': 'This may be chance: nothing is sure, and this is only the largest.',
};

/** Whose sheet it is, and on how many jobs it rests. */
export function coachLeadText({ who, ownJobs, ownPeriod, members, policyId }: CoachReport): string {
  const of =
    members.length === 0
      ? ''
      : ` Done by ${members.map(({ technician, jobs }) => `${technician.name} (${groupedCount(jobs)})`).join(', ')}.`;
  return `${unitText(who)}: ${countText(ownJobs, 'judged job')} from ${dayText(ownPeriod.from)} to ${dayText(ownPeriod.to)}, by the policy ${policyId}.${of}`;
}

/** How much was found, how sure that is, and to whom it is laid. */
export function topicText(topic: CoachTopic): string[] {
  const { sureness, sharedStandingOut: shared } = topic;
  return [
    excessText(topic),
    sureWords[sureness],
    sureness === 'may-be-chance' ? '' : laidToText(topic),
    shared.length === 0
      ? ''
      : `${listed(shared.map(unitText))}, shared with others, ${shared.length === 1 ? 'stands' : 'stand'} out in the same: look at that first.`,
  ].filter((text) => text !== '');
}

/** What it would save; empty where the excess itself may be chance. */
export function savesText({ saves, sureness }: CoachTopic, { counted, fewest }: CoachReport): string {
  if (sureness === 'may-be-chance') return '';
  if (saves === null)
    return counted < fewest
      ? `What it would save in callbacks cannot be told: ${countText(counted, 'callback counts', 'callbacks count')} so far, and it takes ${fewest}.`
      : 'What it would save in callbacks cannot be told from those on record.';
  const { risk, low, high } = saves.callbacks;
  if (high < 0.05 || risk <= 0)
    return 'If no more of this were found than on others’ jobs, hardly a callback fewer is to be expected.';
  const cost =
    saves.cost === null || saves.cost < 1
      ? ''
      : `, at some ${groupedCount(Number(saves.cost.toPrecision(2)))} by what they usually cost`;
  return `If no more of this were found than on others’ jobs, some ${countFew(risk)} callbacks a year fewer are to be expected (${countFew(Math.max(0, low))}–${countFew(high)}, 95%)${cost}.${low <= 0 ? ' That it saves any is not sure.' : ''} Of several skills these do not add up.`;
}

function countFew(count: number): string {
  return count < 9.95 ? count.toFixed(1) : groupedCount(Math.round(count));
}

/** What goes well beside it. */
export function wellText({ skill, rate }: CoachReport['goingWell'][number]): string {
  return `${skill.title}: ${skill.counts} on ${groupedCount(rate.found)} of ${countText(rate.jobs, 'judged job')}, where ${rate.expected.toFixed(1)} were to be expected.`;
}

/** What both jobs of a pair have in common, and whose the good one is. */
export function pairText({ ownJobId, goodJobId, goodDay, goodBy, alike }: TopicPair, who: CoachReport['who']): string {
  const isOwn = goodBy !== null && goodBy.id === who.id;
  const by = goodBy === null ? '' : isOwn ? ', by the same hands' : `, by ${goodBy.name}`;
  const same = alike.length === 0 ? '' : ` Alike in ${listed(alike)}.`;
  return `${namedId('Job', ownJobId)} beside ${namedId('job', goodJobId)} of ${dayText(goodDay)}${by}, on which nothing of this was found.${same}`;
}

function listed(words: readonly string[]): string {
  return words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}

/** What the sheet is for, and what it is not. */
export const coachClosing =
  'This is for a talk and a ride along, not for pay or discipline: it knows what the records say of the jobs and nothing else. A job that could not be judged counts neither for nor against anybody. No figure here says that a system is safe.';
