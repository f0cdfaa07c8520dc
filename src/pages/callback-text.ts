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
  const { callbacks, counted, uncounted, withoutSystem, onRecord, lastDay, horizonDays, jobs, policyId } = summary;
  if (callbacks === 0) return ['No callback is on record, so nothing can be said of what leads to them.'];
  const until =
    onRecord.to === lastDay
      ? ''
      : `, and none since, though there are jobs up to ${dayText(lastDay)}: counted is up to then`;
  return [
    `${countText(callbacks, 'callback')} on record from ${dayText(onRecord.from)} to ${dayText(onRecord.to)}${until}; ${countText(jobs, 'judged job')}, by the policy ${policyId}.`,
    `${groupedCount(counted)} of them ${counted === 1 ? 'counts' : 'count'} where jobs are compared by what was found: the first of each job that its commissioning could have caused, within ${horizonDays} days.${uncounted === 0 ? '' : ` ${groupedCount(uncounted)} more ${uncounted === 1 ? 'does' : 'do'} not: they came after a visit or other work on the circuit, or their job names no system.`}`,
    ...(withoutSystem === 0
      ? []
      : [
          'No job names its system, so none can be watched: only who names systems can be told what leads to callbacks.',
        ]),
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

/** What the groups of jobs are, and a dash for a share. */
export const groupsText =
  'flagged: any suspect or fail finding but those on the recording alone. clean: none, and a pressure, vacuum or rise test was judged. –: nobody was watched for so long, or too few.';

/** Whether flagged and clean jobs differ in how long they go without a callback. */
export function logRankText({ free, counted, fewest }: CallbackReport): string {
  if (counted < fewest || free.logRank === null)
    return 'Whether flagged and clean jobs differ cannot be told of so few callbacks.';
  const { statistic, chance, observed, expected } = free.logRank;
  const sides = `among jobs of the same person, flagged ones had ${countText(observed, 'callback')} where ${groupedCount(Math.round(expected))} would be theirs if nothing told them apart`;
  if (chance >= 0.05)
    return `Whether flagged and clean jobs differ cannot be told: ${sides}, as chance alone makes it in ${percentText(chance)} of cases (log-rank ${statistic.toFixed(1)}).`;
  const rarity = chance < 0.001 ? 'in fewer than one case of a thousand' : `in ${fineShareText(chance)} of cases`;
  return `Flagged and clean jobs differ beyond chance: ${sides}; chance alone makes as much ${rarity} (log-rank ${statistic.toFixed(1)}).`;
}

/** What visits that followed up jobs have hidden. */
export function preventedText({ prevented, horizonDays }: CallbackReport): string {
  const { visits, callbacks, allTheSame } = prevented;
  if (visits === 0) return '';
  const jobs = countText(visits, 'job');
  if (callbacks === null)
    return `${jobs} had a follow-up visit before any callback; how many callbacks that prevented cannot be told.`;
  const about = (count: number): string => count.toFixed(count < 10 ? 1 : 0);
  return `${jobs} had a follow-up visit before any callback. By what is known of such jobs some ${about(callbacks.expected)} (${about(callbacks.low)}–${about(callbacks.high)}) would have called back within ${horizonDays} days without it; ${groupedCount(allTheSame)} did all the same.`;
}

/** How the shares take visits and other work into account. */
export function weighedText({ free }: CallbackReport): string {
  return free.isWeighted
    ? 'Jobs that were visited or worked on again are counted by others like them, so that looking after a job does not make it seem sound.'
    : '';
}

/** Why nothing is said of what foretells callbacks; empty where it is. */
export function tooFewText({ counted, fewest }: CallbackSummary): string {
  if (counted >= fewest) return '';
  const have =
    counted === 0 ? 'no callback counts' : `only ${countText(counted, 'callback counts', 'callbacks count')}`;
  return `${have} so far, and it takes ${fewest} to tell what foretells them`;
}

/** What is to be expected of all open jobs. */
export function baseText({ openJobs, expected, baseRisk, windowDays, lastDay }: RiskReport): string {
  return `On ${dayText(lastDay)} ${countText(openJobs, 'job is', 'jobs are')} open: no callback yet that commissioning could have caused, and no other work on the circuit. Of these about ${expected < 10 ? expected.toFixed(1) : groupedCount(Math.round(expected))} are to be expected to call back within ${windowDays} days for such a cause (${fineShareText(baseRisk)}).`;
}

/** How right earlier lists would have been. */
export function recordText({ record, windowDays }: RiskReport): string[] {
  if (record === null)
    return [
      'Not yet held against what came: the record is too short to look back from an earlier day with enough callbacks before it. Take the risks as a first order.',
    ];
  const { looks, jobs, expected, observed, slope, brier, baseBrier, brierError } = record;
  const better = (baseBrier - brier) / baseBrier;
  const gain = `the mean squared error (Brier score ${brier.toPrecision(3)}) is ${fineShareText(Math.abs(better))} (± ${fineShareText(brierError / baseBrier)}) ${better >= 0 ? 'below' : 'above'} that of a risk by age alone, which is little by nature where callbacks are rare`;
  const spread =
    slope === null
      ? ''
      : ` Risks are as far apart as callbacks at a slope of 1; measured: ${slope.slope.toFixed(2)} (${slope.low.toFixed(2)}–${slope.high.toFixed(2)}).`;
  return [
    `Looked back from ${countText(looks, 'earlier day')}, each time with nothing known of what came after it: of ${countText(jobs, 'open job')} ${groupedCount(Math.round(expected))} callbacks were expected within ${windowDays} days, and ${groupedCount(observed)} came; ${gain}.${spread}`,
  ];
}
