import { baseText, recordText, summaryText, tooFewText } from '../pages/callback-text.ts';
import type { RiskReport, WatchedJob } from '../pages/callback-data.ts';
import { dayText } from '../pages/day-text.ts';
import { leadSentences } from '../pages/lead-sentences.ts';
import { namedId } from '../pages/named-id.ts';
import { fineShareText, groupedCount, percentText } from '../pages/share-text.ts';
import { textTable } from './text-table.ts';
import { wrappedText } from './wrapped-text.ts';

/** A finding says so much of itself in the list; the job's own page says it all. */
const findingLength = 160;

const closing =
  'A risk is a share of many such jobs, by anybody, and no word on this one; a job that is not listed is not cleared, and no figure here says that a system is safe. Systems are opened by certified technicians under local codes only; with a flammable refrigerant no source of ignition comes near, and it is ventilated first.';

/** The list of open jobs for a terminal. */
export function riskText(report: RiskReport): string {
  return [
    ...summaryText(report).flatMap((text) => wrappedText(text)),
    ...(report.callbacks === 0 ? [] : wrappedText(baseText(report))),
    '',
    ...listLines(report),
    ...recordLines(report),
    '',
    ...wrappedText(closing),
  ].join('\n');
}

function listLines(report: RiskReport): string[] {
  const { noList, watchList, openJobs } = report;
  const instead = 'Which jobs to look at meanwhile: those that failed a check, dryhold report.';
  const reasons = {
    'too-few': `Which of them are likeliest to call back cannot be told: ${tooFewText(report)}. ${instead}`,
    'no-better': `Which of them are likeliest to call back cannot be told: nothing speaks surely for a list by more than the age of the jobs. ${instead}`,
    'not-told': `Which of them are likeliest to call back cannot be told: the callbacks do not settle it. ${instead}`,
  } as const;
  if (noList !== null) return wrappedText(reasons[noList]);
  const left = openJobs - watchList.length;
  const onSite = new Map(watchList.flatMap((job) => job.onSite.map(({ title, text }) => [title, text])));
  return [
    `The likeliest to call back within ${report.windowDays} days`,
    ...watchList.flatMap((job, at) => ['', ...jobLines(job, at + 1)]),
    ...(left > 0 ? ['', `  and ${groupedCount(left)} less likely: --top N, or --json`] : []),
    '',
    'On site',
    ...[...onSite].flatMap(([title, text]) => wrappedText(`${title}: ${text}`, '  ')),
    '',
  ];
}

function jobLines(
  { jobId, systemId, siteId, refrigerant, technician, day, ageDays, risk, times, findings, onSite }: WatchedJob,
  place: number,
): string[] {
  const where = [
    systemId === null ? null : namedId('system', systemId),
    siteId === null ? null : namedId('site', siteId),
    refrigerant,
  ].filter(Boolean);
  const margin = '     ';
  const [first = '', ...rest] = wrappedText(
    `${namedId('Job', jobId)}: ${percentText(risk.risk)} (${Math.round(100 * risk.low)}–${percentText(risk.high)}), ${timesText(times)} times that of any job of its age`,
    margin,
  );
  return [
    `${String(place).padStart(3)}  ${first.trimStart()}`,
    ...rest,
    ...wrappedText(
      `${[`done ${dayText(day)}, ${ageDays} days ago${technician === null ? '' : `, by ${technician.name}`}`, ...where].join(' · ')}`,
      margin,
    ),
    ...(findings.length === 0
      ? wrappedText(
          times > 1 ? 'No finding raises it: jobs of its kind call back more often.' : 'Nothing raises it.',
          margin,
        )
      : findings.flatMap(({ checkId, text }) =>
          wrappedText(`${checkId}: ${leadSentences(text, findingLength)}`, margin),
        )),
    ...(onSite.length === 0 ? [] : wrappedText(`On site: ${onSite.map(({ title }) => title).join('; ')}.`, margin)),
  ];
}

function timesText(times: number): string {
  return times < 9.95 ? times.toFixed(1) : groupedCount(Math.round(times));
}

function recordLines(report: RiskReport): string[] {
  const { noList, record } = report;
  // Without a list and without earlier ones there is nothing to be right or wrong.
  if (noList === 'too-few' || noList === 'not-told' || (noList !== null && record === null)) return [];
  const rows = (record?.tenths ?? []).map(({ jobs, risk, expected, observed }) => [
    fineShareText(risk),
    groupedCount(jobs),
    expected.toFixed(1),
    groupedCount(observed),
    fineShareText(jobs === 0 ? null : observed / jobs),
  ]);
  return [
    'How right such lists would have been',
    ...recordText(report).flatMap((text) => wrappedText(text, '  ')),
    ...(record === null
      ? []
      : [textTable(['risk given', 'jobs', 'expected', 'came', 'share'], rows).replaceAll(/^/gm, '  ')]),
  ];
}
