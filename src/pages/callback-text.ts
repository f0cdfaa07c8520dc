import { checkNamed } from '../checks/checks.ts';
import type { CallbackCause } from '../fleet/callbacks/callback-cause.ts';
import type { JobGroup } from '../fleet/callbacks/callback-free.ts';
import type { CallbackReport, CallbackSummary, NamedSkill, RiskReport } from './callback-data.ts';
import { dayText } from './day-text.ts';
import { countText, fineShareText, groupedCount, percentText } from './share-text.ts';

/** Whose a callback was. */
export const causeWords: Readonly<Record<CallbackCause, string>> = {
  commissioning: 'probably commissioning',
  other: 'probably not',
  unknown: 'cannot be told',
};

export const groupWords: Readonly<Record<JobGroup, string>> = {
  flagged: 'flagged',
  clean: 'clean',
  'not-judged': 'tests not judged',
};

/** What a predictor is called: a check by its id, a group of checks by what is counted of it. */
export function skillText({ id, title, by }: NamedSkill): string {
  if (by === 'missing') return `no ${title}`;
  return checkNamed(id) === undefined ? `${title}: any finding` : id;
}

/** Which callbacks are on record, and which count. */
export function summaryText(summary: CallbackSummary): string[] {
  const { callbacks, counted, onRecord, lastDay, horizonDays, jobs, policyId } = summary;
  if (callbacks === 0) return ['No callback is on record, so nothing can be said of what leads to them.'];
  const until =
    onRecord.to === lastDay
      ? ''
      : `, though there are jobs up to ${dayText(lastDay)}: what was reported since is not known`;
  return [
    `${countText(callbacks, 'callback')} on record from ${dayText(onRecord.from)} to ${dayText(onRecord.to)}${until}; ${countText(jobs, 'judged job')}, by the policy ${policyId}.`,
    `${countText(counted, 'callback')} ${counted === 1 ? 'counts' : 'count'} below: the first of each job that its commissioning could have caused, within ${horizonDays} days.`,
  ];
}

/** How the callbacks were traced, and which were not. */
export function tracedText({ traced, repeats }: CallbackReport): string {
  const parts = [
    [traced.job, 'to the job that the source names'],
    [traced.system, 'to the latest work on the system before it'],
    [traced['beyond-horizon'], 'to work that is too long ago to be laid to it'],
    [traced['no-work-before'], 'to nothing: no work on its circuit is on record before it'],
    [traced['not-named'], 'to nothing: neither job nor system is named'],
  ] as const;
  const told = parts.flatMap(([count, how]) => (count === 0 ? [] : [`${groupedCount(count)} ${how}`]));
  const again =
    repeats === 0 ? '' : ` ${countText(repeats, 'of them repeats', 'of them repeat')} an earlier one of the same job.`;
  return `Traced: ${told.join('; ')}.${again}`;
}

/** Whether flagged and clean jobs differ in how long they go without a callback. */
export function logRankText({ free }: CallbackReport): string {
  const { statistic, chance, observed, expected } = free.logRank;
  if (!Number.isFinite(statistic))
    return 'Flagged and clean jobs never stood beside each other, so nothing tells whether they differ.';
  const sides = `flagged jobs had ${countText(observed, 'callback')} where ${Math.round(expected)} would be theirs if nothing told them apart`;
  if (chance >= 0.05)
    return `Whether flagged and clean jobs differ cannot be told: ${sides}, as chance alone makes it in ${percentText(chance)} of cases (log-rank ${statistic.toFixed(1)}).`;
  const rarity = chance < 0.001 ? 'in fewer than one case of a thousand' : `in ${fineShareText(chance)} of cases`;
  return `Flagged and clean jobs differ beyond chance: ${sides}; chance alone makes as much ${rarity} (log-rank ${statistic.toFixed(1)}).`;
}

/** What visits that followed up jobs have hidden. */
export function preventedText({ prevented, free, horizonDays }: CallbackReport): string {
  const { visits, callbacks } = prevented;
  if (visits === 0) return '';
  const told =
    callbacks === null
      ? 'How many callbacks that prevented cannot be told.'
      : `Without, some ${callbacks.expected.toFixed(callbacks.expected < 10 ? 1 : 0)} (${callbacks.low.toFixed(1)}–${callbacks.high.toFixed(1)}) of them would have called back within ${horizonDays} days.`;
  const weighed = free.isWeighted
    ? ' The shares count jobs like them for these, so that looking after a job does not make it seem sound.'
    : ' They are too few to tell what prompts them; the shares count them as watched until then.';
  return `${countText(visits, 'job')} had a follow-up visit before any callback. ${told}${weighed}`;
}

/** Why nothing is said of what foretells callbacks; empty where it is. */
export function tooFewText({ counted, fewest }: CallbackSummary): string {
  return counted >= fewest
    ? ''
    : `Cannot be told: ${counted === 0 ? 'no callback counts' : `only ${countText(counted, 'callback counts', 'callbacks count')}`} so far, and it takes ${fewest} to tell what foretells them.`;
}

/** What is to be expected of all open jobs. */
export function baseText({ openJobs, expected, baseRisk, windowDays, lastDay }: RiskReport): string {
  return `On ${dayText(lastDay)} ${countText(openJobs, 'job is', 'jobs are')} open: no callback yet, and no other work on the circuit. Of these about ${expected < 10 ? expected.toFixed(1) : groupedCount(Math.round(expected))} are to be expected to call back within ${windowDays} days for what commissioning could have caused (${fineShareText(baseRisk)}).`;
}

/** How right earlier lists would have been. */
export function recordText({ record, windowDays }: RiskReport): string[] {
  if (record === null)
    return [
      'Not yet held against what came: the record is too short to look back from an earlier day with enough callbacks before it. Take the risks as a first order.',
    ];
  const { looks, jobs, expected, observed, slope, brier, baseBrier } = record;
  const better = 1 - brier / baseBrier;
  const gain =
    better > 0
      ? `the squared error of the risks (Brier score ${brier.toPrecision(3)}) is ${fineShareText(better)} below that of a risk by age alone (${baseBrier.toPrecision(3)})`
      : `the squared error of the risks (Brier score ${brier.toPrecision(3)}) is no smaller than that of a risk by age alone (${baseBrier.toPrecision(3)})`;
  const spread =
    slope === null
      ? ''
      : ` Risks are as far apart as callbacks at a slope of 1; measured: ${slope.slope.toFixed(2)} (${slope.low.toFixed(2)}–${slope.high.toFixed(2)}).`;
  return [
    `Looked back from ${countText(looks, 'earlier day')}, each time with nothing known of what came after it: of ${countText(jobs, 'open job')} ${Math.round(expected)} callbacks were expected within ${windowDays} days, and ${groupedCount(observed)} came; ${gain}.${spread}`,
  ];
}
