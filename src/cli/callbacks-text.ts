import {
  causeWords,
  groupsText,
  groupWords,
  logRankText,
  preventedText,
  skillText,
  summaryText,
  tooFewText,
  tracedText,
  weighedText,
} from '../pages/callback-text.ts';
import type { CallbackReport, CauseTotals, ForerunnerReport } from '../pages/callback-data.ts';
import { dayText } from '../pages/day-text.ts';
import { fineShareText, groupedCount } from '../pages/share-text.ts';
import { massText, type UnitSystem } from '../units/display.ts';
import { textTable } from './text-table.ts';
import { wrappedText } from './wrapped-text.ts';

/** Of more only so many are told. */
const most = { reasons: 5, callbacks: 15, findings: 2, characters: 40 } as const;

const closing =
  'Whether a callback was the fault of the work nobody can read off a log: this lays side by side what was found on the job and what was found later. It is for finding what to do better, and no measure of a person. No figure here says that a system is safe.';

/** The report on callbacks for a terminal. */
export function callbacksText(report: CallbackReport, units: UnitSystem): string {
  if (report.callbacks === 0) return wrappedText(summaryText(report)[0]).join('\n');
  return [
    ...summaryText(report).flatMap((text) => wrappedText(text)),
    ...wrappedText(tracedText(report)),
    '',
    ...causeLines(report, units),
    '',
    ...shareLines(report),
    '',
    ...forerunnerLines(report),
    '',
    ...latestLines(report),
    '',
    ...wrappedText(closing),
  ].join('\n');
}

function indented(table: string): string {
  return table.replaceAll(/^/gm, '  ');
}

function causeLines({ causes }: CallbackReport, units: UnitSystem): string[] {
  const rows = causes.map(({ cause, callbacks, cost, costed, refrigerantAddedKg, medianDays }) => [
    causeWords[cause],
    groupedCount(callbacks),
    costed === 0 ? '–' : groupedCount(Math.round(cost)),
    costed === 0 ? '–' : groupedCount(Math.round(cost / costed)),
    refrigerantAddedKg === 0 ? '–' : massText(refrigerantAddedKg, units),
    medianDays === null ? '–' : String(Math.round(medianDays)),
  ]);
  return [
    'What they were about, by what was found, what was added, and what the customer said',
    indented(textTable(['', 'callbacks', 'cost', 'each', 'refrigerant added', 'days after, median'], rows)),
    ...causes.flatMap(reasonLines),
  ];
}

function reasonLines({ cause, reasons }: CauseTotals): string[] {
  if (reasons.length === 0) return [];
  const told = reasons
    .slice(0, most.reasons)
    .map(({ text, callbacks }) => `${text === '' ? 'nothing that tells' : shortened(text)} ${groupedCount(callbacks)}`);
  const left = reasons.slice(most.reasons).reduce((sum, { callbacks }) => sum + callbacks, 0);
  return wrappedText(
    `${causeWords[cause]}: ${told.join(', ')}${left > 0 ? `, others ${groupedCount(left)}` : ''}.`,
    '  ',
  );
}

function shareLines(report: CallbackReport): string[] {
  const { free } = report;
  const ages = free.groups[0]?.shares.map(({ ageDays }) => `${ageDays} days`) ?? [];
  const rows = free.groups.map(({ group, jobs, callbacks, shares }) => [
    groupWords[group],
    groupedCount(jobs),
    groupedCount(callbacks),
    ...shares.map(({ share, low, high }) =>
      share === null ? '–' : `${fineShareText(share)} (${withoutPercent(low)}–${fineShareText(high)})`,
    ),
  ]);
  return [
    'Share of jobs with a callback, by days since the job (Kaplan and Meier, 95% interval)',
    indented(textTable(['', 'jobs', 'callbacks', ...ages], rows)),
    ...wrappedText(groupsText, '  '),
    ...wrappedText(logRankText(report), '  '),
    ...[weighedText(report), preventedText(report)].flatMap((text) => (text === '' ? [] : wrappedText(text, '  '))),
  ];
}

function withoutPercent(share: number | null): string {
  return fineShareText(share).replace('%', '');
}

function forerunnerLines(report: CallbackReport): string[] {
  const { forerunners, limit } = report;
  const title = 'What foretells callbacks: among jobs of the same person, all else in this table alike';
  if (forerunners === null) {
    const reason = tooFewText(report);
    return [
      title,
      ...wrappedText(`Cannot be told: ${reason === '' ? 'the callbacks do not settle it' : reason}.`, '  '),
    ];
  }
  const { by, told, tooRare, beyond } = forerunners;
  const named = told.filter(({ isForerunner }) => isForerunner);
  const held =
    named.length === 0
      ? 'Nothing beyond chance.'
      : `* foretells callbacks beyond chance: of such names one in ${Math.round(1 / limit)} is there by chance.`;
  const groups =
    by === 'groups' ? ' Groups of checks are told, since single checks would need more callbacks: ten for each.' : '';
  return [
    title,
    indented(textTable(['', 'jobs with it', 'callbacks', 'times as likely (95%)', ''], told.map(forerunnerRow))),
    ...wrappedText(`${held}${groups}`, '  '),
    ...(beyond.length === 0
      ? []
      : wrappedText(
          `Not in this table, since the callbacks are too few for it: ${beyond.map(skillText).join(', ')}. What goes with one of these may stand for it.`,
          '  ',
        )),
    ...(tooRare.length === 0
      ? []
      : wrappedText(`Found too rarely to tell: ${tooRare.map(skillText).join(', ')}.`, '  ')),
  ];
}

function forerunnerRow({
  skill,
  found,
  judged,
  callbacks,
  ratio,
  low,
  high,
  isForerunner,
  standsFor,
}: ForerunnerReport) {
  const others = standsFor.length === 0 ? '' : ` (with ${standsFor.map(skillText).join(', ')})`;
  return [
    `${skillText(skill)}${others}`,
    `${groupedCount(found)} of ${groupedCount(judged)}`,
    groupedCount(callbacks),
    `${timesText(ratio)} (${timesText(low)}–${timesText(high)})`,
    isForerunner ? '*' : '',
  ];
}

function timesText(ratio: number): string {
  return ratio < 9.95 ? ratio.toFixed(1) : ratio < 1000 ? String(Math.round(ratio)) : 'over 1000';
}

function latestLines({ entries }: CallbackReport): string[] {
  const rows = entries
    .slice(0, most.callbacks)
    .map((entry) => [
      dayText(entry.reportedAt),
      causeWords[entry.cause.cause],
      shortened(entry.causeFound ?? entry.reason ?? entry.cause.words),
      entry.jobId === null ? '–' : `${entry.jobId}${entry.isRepeat ? ' again' : ''}`,
      entry.daysAfter === null ? '–' : String(entry.daysAfter),
      entry.technician?.name ?? '–',
      findingsText(entry.findings, entry.jobId !== null),
    ]);
  const left = entries.length - rows.length;
  return [
    'Latest callbacks, and what had been found on their jobs',
    indented(
      textTable(
        ['reported', 'commissioning?', 'found, or said', 'job', 'days after', 'by', 'findings of the job'],
        rows,
      ),
    ),
    ...(left > 0 ? [`  ${groupedCount(left)} more: dryhold callbacks --json`] : []),
    '  One of these jobs, with its evidence: dryhold show JOB',
  ];
}

/** What people wrote, in one line, and no more of it than a table has room for. */
function shortened(text: string): string {
  const line = text.replaceAll(/\s+/g, ' ').trim();
  const characters = Array.from(new Intl.Segmenter('en').segment(line), ({ segment }) => segment);
  const room = most.characters;
  return characters.length <= room
    ? characters.join('')
    : `${characters
        .slice(0, room - 1)
        .join('')
        .trimEnd()}…`;
}

function findingsText(findings: readonly string[], isTraced: boolean): string {
  if (!isTraced) return '–';
  if (findings.length === 0) return 'none';
  const left = findings.length - most.findings;
  return `${findings.slice(0, most.findings).join(', ')}${left > 0 ? ` +${left}` : ''}`;
}
