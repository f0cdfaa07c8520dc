import type { Grouping } from '../accounts/booked-ledger.ts';
import { vintageText } from '../accounts/gwp.ts';
import type { AccountsReport, NeedLine, RemarkedCylinder } from '../pages/accounts-data.ts';
import { apartText } from '../pages/apart-text.ts';
import { balanceColumns } from '../pages/balance-columns.ts';
import { causeWords } from '../pages/callback-text.ts';
import { co2eFigure } from '../pages/co2e-text.ts';
import { cylinderRemarkText } from '../pages/cylinder-remark-text.ts';
import { dayText, monthText } from '../pages/day-text.ts';
import { countText, groupedCount, moneyText } from '../pages/share-text.ts';
import { signalText } from '../pages/trend-text.ts';
import { bookedMassText, type UnitSystem, withoutUnit } from '../units/display.ts';
import { textTable } from './text-table.ts';
import { wrappedText } from './wrapped-text.ts';

/** Of more only so many are told. */
const most = { lines: 200, cylinders: 12, technicians: 12, jobs: 8 } as const;
const margin = '  ';

const closing =
  'What is missing between two weighings may have leaked, been used and not written down, been weighed wrongly, or been taken: this says how much and when, and no more. No figure here is a measure of a person. Recover refrigerant, never vent it.';

/** The report on accounts for a terminal. */
export function accountsText(report: AccountsReport, units: UnitSystem): string {
  const { cylinders, weighings, apart } = report;
  if (cylinders === 0 && weighings === 0 && apart.length === 0)
    return wrappedText(
      'No cylinder and no weighing is on record, so nothing can be accounted. Export both, with the cylinder that each weighing is of, and ingest them.',
    ).join('\n');
  return [
    ...headLines(report, units),
    '',
    ...balanceLines(report, 'refrigerant', units),
    '',
    ...balanceLines(report, 'month', units),
    ...signalLines(report, units),
    '',
    ...balanceLines(report, 'crew', units),
    '',
    ...cylinderLines(report, units),
    '',
    ...needLines(report, units),
    ...callbackLines(report, units),
    ...apartLines(report, units),
    '',
    ...wrappedText(closing),
  ].join('\n');
}

/** Only the balances by one thing. */
export function balancesText(report: AccountsReport, by: Grouping, units: UnitSystem): string {
  return [
    ...headLines(report, units),
    '',
    ...balanceLines(report, by, units),
    '',
    ...apartLines(report, units),
    '',
    ...wrappedText(closing),
  ].join('\n');
}

function headLines(
  { period, lastDay, cylinders, weighings, isMeasured, vintage, vintageNotes }: AccountsReport,
  units: UnitSystem,
): string[] {
  const unit = units === 'si' ? 'kg' : 'lb';
  const notes = vintageNotes.length === 0 ? '' : ` (${vintageNotes.join('; ')})`;
  const until = period.to < lastDay ? ` The record goes on to ${dayText(lastDay)}.` : '';
  const unmeasured = isMeasured
    ? ''
    : ' Jobs are not judged yet, so that the series of scales have no say: run "dryhold judge".';
  return wrappedText(
    `${dayText(period.from)} to ${dayText(period.to)}: ${countText(cylinders, 'cylinder')}, ${countText(weighings, 'weighing')}. Masses in ${unit}; CO₂e in tonnes by the values of ${vintageText[vintage]}${notes}.${until}${unmeasured}`,
  );
}

const titles: Readonly<Record<Grouping, string>> = {
  refrigerant: 'Where the refrigerant went',
  month: 'Month by month, all refrigerants',
  crew: 'By crew: cylinders that one crew alone used',
  technician: 'By technician: what they charged and recovered, and what went missing between two weighings of theirs',
  site: 'By site: what was charged and recovered there, and what went missing between two weighings there',
  cylinder: 'Cylinder by cylinder',
};

const nobody: Readonly<Record<Grouping, string>> = {
  refrigerant: '',
  month: '',
  cylinder: '',
  crew: 'shared, or unused',
  technician: 'nobody, or several',
  site: 'none, or several',
};

function balanceLines(report: AccountsReport, by: Grouping, units: UnitSystem): string[] {
  const lines = report.lines[by].slice(0, most.lines);
  const left = report.lines[by].length - lines.length;
  if (lines.length === 0) return [titles[by], `${margin}Nothing.`];
  const hasTotal = by !== 'cylinder' && by !== 'technician' && by !== 'site' && lines.length > 1;
  const columns = balanceColumns(lines, {
    units,
    vintage: report.vintage,
    ...(by === 'month' ? { trend: report.trend } : {}),
  });
  const rows = [...lines, ...(hasTotal ? [report.total] : [])].map((line) => [
    line.name === '' ? nobody[by] : by === 'month' && line !== report.total ? monthText(line.name) : line.name,
    ...columns.map(({ cell }) => cell(line)),
  ]);
  return [
    titles[by],
    textTable(['', ...columns.map(({ head }) => head)], rows, { margin, right: columns.map((_, at) => at + 1) }),
    ...(left > 0 ? [`${margin}${groupedCount(left)} more: dryhold accounts --by ${by} --csv`] : []),
    ...(by in notes ? wrappedText(notes[by] ?? '', margin) : []),
    ...(by === 'refrigerant' && report.apartKg > 0
      ? wrappedText(
          `Of what is missing, ${bookedMassText(report.apartKg, units)} are as much as weighings took that are kept apart: see below.`,
          margin,
        )
      : []),
  ];
}

const notes: Partial<Record<Grouping, string>> = {
  refrigerant:
    'Opening + bought + recovered = charged + returned + unexplained + on hand. Charged is what left the cylinders for systems, what stays in hoses included, and beside it that as carbon dioxide, whether or not it will ever leak; unexplained above 0 is missing.',
  month:
    'Added for leaks, and the rate: to all appliances with a full charge on record, as a share of all their charges, as if it went on for a year.',
};

function figure(kg: number | null, units: UnitSystem): string {
  return kg === null ? '–' : withoutUnit(bookedMassText(kg, units));
}

function signalLines({ signals }: AccountsReport, units: UnitSystem): string[] {
  return signals.flatMap((signal) => wrappedText(signalText(signal, units), margin));
}

function cylinderLines({ cylinders, remarked, remarkCounts }: AccountsReport, units: UnitSystem): string[] {
  const title = 'Cylinders to look at';
  if (cylinders === 0) return [title, `${margin}No cylinder has an account: see below why.`];
  if (remarked.length === 0)
    return [
      title,
      ...wrappedText(
        'None: nothing is beyond what scales explain. Losses of under 0.2 kg mostly go unseen, and so do those of cylinders that are weighed on a scale set to 0.',
        margin,
      ),
    ];
  const counts = Object.entries(remarkCounts)
    .filter(([, count]) => count > 0)
    .map(([id, count]) => `${remarkWords[id as keyof typeof remarkWords]} ${groupedCount(count)}`);
  const left = remarked.length - most.cylinders;
  return [
    title,
    ...wrappedText(`${countText(remarked.length, 'cylinder')}: ${counts.join(', ')}.`, margin),
    ...remarked.slice(0, most.cylinders).flatMap((cylinder) => remarkLines(cylinder, units)),
    ...(left > 0 ? [`${margin}${groupedCount(left)} more: dryhold accounts --json`] : []),
    `${margin}One of them, weighing by weighing: dryhold accounts CYLINDER`,
  ];
}

const remarkWords = {
  missing: 'something missing',
  'too-much': 'too much in it',
  mistyped: 'a weight mistyped',
  misplaced: 'a weighing of another cylinder’s',
  negative: 'less than nothing in it',
  overfilled: 'overfilled',
  'other-refrigerant': 'another refrigerant weighed',
} as const;

function remarkLines({ cylinderId, refrigerant, crew, remarks }: RemarkedCylinder, units: UnitSystem): string[] {
  const who = [refrigerant, crew].filter((one) => one !== null).join(', ');
  return [
    `${margin}${cylinderId} (${who})`,
    ...remarks.flatMap((remark) => wrappedText(cylinderRemarkText(remark, units), `${margin}${margin}`)),
  ];
}

function needLines({ needs }: AccountsReport, units: UnitSystem): string[] {
  const title = 'Charged beside what was needed';
  if (needs === null)
    return [
      title,
      ...wrappedText(
        'Of no job both are known: judge the jobs, and see "dryhold rejects" for what was refused.',
        margin,
      ),
      '',
    ];
  const { total, technicians, jobs } = needs;
  const row = (line: NeedLine) => [
    line.name,
    groupedCount(line.jobs),
    figure(line.wantedKg, units),
    figure(line.chargedKg, units),
    figure(line.overKg, units),
    figure(line.halfWidthKg, units),
    groupedCount(line.surelyOver),
    figure(line.surelyOverKg, units),
    groupedCount(line.surelyUnder),
    moneyText(line.over.cost),
    co2eFigure(line.over.co2eT),
  ];
  const left = technicians.length - most.technicians;
  const heads = [
    '',
    'jobs',
    'needed',
    'charged',
    'over',
    '± (95%)',
    'jobs over (95%)',
    'by',
    'under',
    'over, cost',
    'over, t CO₂e',
  ];
  return [
    title,
    textTable(heads, [...technicians.slice(0, most.technicians), total].map(row), {
      margin,
      right: heads.map((_, at) => at).slice(1),
    }),
    ...(left > 0 ? [`${margin}${groupedCount(left)} more: dryhold accounts --json`] : []),
    ...wrappedText(
      'Jobs over: beyond the 95% interval; of jobs that put in just what they needed one in forty is, by chance. For coaching, together with the mix of their jobs (dryhold fleet charge); no measure of a person.',
      margin,
    ),
    ...(total.unsure > 0
      ? wrappedText(
          `${countText(total.unsure, 'job')} more, whose charge is known to no better than ${bookedMassText(0.5, units)}, are not added up.`,
          margin,
        )
      : []),
    ...(jobs.length === 0
      ? []
      : [
          `${margin}Most over, beyond the 95% interval`,
          ...jobs
            .slice(0, most.jobs)
            .map(
              (job) =>
                `${margin}${margin}${job.jobId}, ${dayText(job.day)}, ${job.technician}: ${bookedMassText(job.overKg, units)} (${withoutUnit(bookedMassText(job.lowKg, units))} to ${bookedMassText(job.highKg, units)}) more than the ${bookedMassText(job.wantedKg, units)} needed${job.slip === null ? '' : `, ${job.slip}`}`,
            ),
          `${margin}One of these jobs, with its evidence: dryhold show JOB`,
        ]),
    '',
  ];
}

function callbackLines({ callbackCosts, warrantyDays }: AccountsReport, units: UnitSystem): string[] {
  if (callbackCosts.length === 0) return [];
  const money = (cost: number, of: number) => moneyText(of === 0 ? null : cost);
  const heads = ['commissioning?', 'callbacks', 'cost', 'within warranty', 'cost', 'refrigerant added'];
  const rows = callbackCosts.map((line) => [
    causeWords[line.cause],
    groupedCount(line.callbacks),
    money(line.cost, line.costed),
    groupedCount(line.inWarranty),
    money(line.warrantyCost, line.costed),
    figure(line.refrigerantKg, units),
  ]);
  return [
    'What callbacks cost',
    textTable(heads, rows, { margin, right: [1, 2, 3, 4, 5] }),
    ...wrappedText(
      `Within warranty: up to ${warrantyDays} days after the work that they trace to (common practice, no source). Which were ours, and what foretells them: dryhold callbacks`,
      margin,
    ),
    '',
  ];
}

function apartLines({ apart }: AccountsReport, units: UnitSystem): string[] {
  if (apart.length === 0) return ['Nothing had to be kept apart.'];
  return ['Cannot be accounted, because', ...apart.flatMap((group) => wrappedText(apartText(group, units), margin))];
}
