import { dateOf } from '../numerics/calendar-day.ts';
import type { Obligation } from '../accounts/obligation.ts';
import type { DueLine, DueReport } from '../pages/leaks-data.ts';
import { dayText } from '../pages/day-text.ts';
import { obligationText, reasonText, sinceText } from '../pages/rule-text.ts';
import { countText, groupedCount } from '../pages/share-text.ts';
import { textTable } from './text-table.ts';
import { wrappedText } from './wrapped-text.ts';

/** Of more only so many are told. */
const most = { open: 40, late: 8, calibrations: 12, named: 8 } as const;
const margin = '  ';

/** Where an obligation stands, in words. */
export function dueText({ state, dueDay, doneDay, lacks }: Obligation): string {
  const due = dueDay === null ? 'on a day that cannot be told' : dayText(dateOf(dueDay));
  const done = doneDay === null ? '' : dayText(dateOf(doneDay));
  switch (state) {
    case 'done':
      return `done ${done}, due ${due}`;
    case 'done-late':
      return `done late ${done}, due ${due}`;
    case 'due':
      return `due ${due}`;
    case 'overdue':
      return `overdue since ${due}`;
    default:
      return `cannot be told, due ${due}: the record lacks ${lacks ?? 'what it counts from'}`;
  }
}

/** The list of what is due for a terminal. */
export function dueReportText(report: DueReport): string {
  const { open, later, done, doneLate, asOf, lastDay, withinDays, notice, method } = report;
  const count = (state: Obligation['state']) => open.filter((line) => line.state === state).length;
  const until = asOf === lastDay ? 'the last day on record' : `the record ends on ${dayText(lastDay)}`;
  return [
    ...wrappedText(
      `As of ${dayText(asOf)} (${until}), leak rates by the ${method} method: ${groupedCount(count('overdue'))} overdue, ${groupedCount(count('due'))} due within ${countText(withinDays, 'day')}, ${groupedCount(count('unknown'))} that cannot be told; ${groupedCount(later)} due later, ${groupedCount(done)} done in time, ${groupedCount(doneLate.length)} done late.`,
    ),
    ...(asOf > lastDay ? wrappedText('What was done since the record ends is not known here.') : []),
    '',
    ...openLines(open),
    ...lateLines(doneLate),
    '',
    ...untoldLines(report),
    ...calibrationLines(report),
    '',
    ...report.rules.flatMap(({ id, title, bases }) => wrappedText(`${id}: ${title}; known by ${bases.join(', ')}.`)),
    ...wrappedText(notice),
  ].join('\n');
}

function openLines(open: readonly DueLine[]): string[] {
  if (open.length === 0) return ['Nothing is overdue, due soon, or untold.'];
  const words = { overdue: 'overdue', due: 'due', unknown: 'cannot be told', done: '', 'done-late': '' } as const;
  const rows = open
    .slice(0, most.open)
    .map((line) => [
      words[line.state],
      line.dueOn === null ? '–' : dayText(line.dueOn),
      obligationText[line.kind],
      line.siteId === null ? line.systemId : `${line.systemId} (${line.siteId})`,
      line.state === 'unknown' ? `lacks ${line.lacks ?? 'what it counts from'}` : sinceText(line),
      line.ruleId,
    ]);
  const left = open.length - rows.length;
  return [
    textTable(['', 'due', 'what', 'appliance', 'since', 'rule'], rows),
    ...(left > 0 ? [`${margin}${groupedCount(left)} more: dryhold due --csv`] : []),
  ];
}

function lateLines(doneLate: readonly DueLine[]): string[] {
  if (doneLate.length === 0) return [];
  return [
    '',
    'Done late',
    ...doneLate
      .slice(0, most.late)
      .map((line) => `${margin}${line.systemId}: ${obligationText[line.kind]}, ${dueText(line)}`),
    ...(doneLate.length > most.late
      ? [`${margin}${groupedCount(doneLate.length - most.late)} more: dryhold due --csv`]
      : []),
  ];
}

function untoldLines({ untold }: DueReport): string[] {
  if (untold.length === 0) return [];
  return [
    'No rule can be told',
    ...untold.flatMap(({ reason, appliances, count }) =>
      wrappedText(
        `${countText(count, 'appliance')}, because ${reasonText[reason]}: ${appliances.slice(0, most.named).join(', ')}${count > most.named ? ', …' : ''}`,
        margin,
      ),
    ),
    '',
  ];
}

function calibrationLines({ calibrations, calibrationMonths }: DueReport): string[] {
  const title = `Vacuum gauges to calibrate, ${calibrationMonths} months after the last time (common practice, no source)`;
  if (calibrations.length === 0) return [title, `${margin}None.`];
  const told = calibrations
    .slice(0, most.calibrations)
    .map(({ gaugeId, calibratedOn, dueOn, state }) =>
      state === 'unknown' || dueOn === null || calibratedOn === null
        ? `${margin}${gaugeId}: no calibration is on record`
        : `${margin}${gaugeId}: ${state === 'overdue' ? 'overdue since' : 'due'} ${dayText(dueOn)}, calibrated ${dayText(calibratedOn)}`,
    );
  const left = calibrations.length - told.length;
  return [title, ...told, ...(left > 0 ? [`${margin}${groupedCount(left)} more: dryhold due --json`] : [])];
}
