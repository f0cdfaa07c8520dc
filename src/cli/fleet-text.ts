import { changeText, joinedChanges, surest, trainingText } from '../pages/change-text.ts';
import { dayText } from '../pages/day-text.ts';
import type { FleetRates, FleetReport, FleetSummary, RatesReport } from '../pages/fleet-data.ts';
import { countText, groupedCount, percentText } from '../pages/share-text.ts';
import {
  excessText,
  isAnybodyHeld,
  laidToText,
  mostText,
  nothingToldYet,
  unitText,
  withoutRepeats,
} from '../pages/standing-out-text.ts';
import { rateTable, rowsShown, skillGrid } from './fleet-tables.ts';
import { textTable } from './text-table.ts';
import { wrappedText } from './wrapped-text.ts';

/** Of more who stand out, changes and trainings only so many are told. */
const most = { standingOut: 20, changes: 12, trainings: 12 } as const;

const closing =
  'These are for coaching: where to ride along, and what to look at together. They are no measure of a person, and no ground for pay or discipline. Whoever has few judged jobs can neither stand out nor be cleared; a job that could not be judged counts neither for nor against anyone. The expectation knows what the record says of a job (refrigerant, kind of system and work, lines, season, weather, what tests and gauges could show), and nothing else. No figure here says that a system is safe.';

/** The whole report for a terminal. */
export function fleetText(report: FleetReport): string {
  return [
    ...heading(report),
    '',
    ...standingOutLines(report),
    '',
    ...gridLines(report),
    '',
    ...changeLines(report),
    ...trainingLines(report),
    '',
    ...wrappedText(closing),
  ].join('\n');
}

/** Rates of some skills or checks for a terminal. */
export function ratesText(report: FleetRates): string {
  return [
    ...heading(report),
    ...report.rates.flatMap((rates) => ['', ...ratesLines(rates)]),
    '',
    ...wrappedText(
      'judged: jobs that could be judged. found: those of them that have it, with the share and its 95% interval. believed: the share once it is known how all differ, with its 95% interval. expected: how many such jobs of anybody would have it; times: found over expected. funnel: whether the share lies within what chance, and what is usual between them, make of it 95 and 99.8 of 100 times. own odds: beside what is expected, with people, crews and gear taken out of each other, and the 95% interval; who or what never parts has one figure; as all: no difference beyond chance. not ev.: what there is could not be judged; no log: nothing to judge by.',
    ),
  ].join('\n');
}

function heading({ technicians, crews, jobs, period, policyId, undated }: FleetSummary): string[] {
  const when = jobs === 0 ? '' : ` from ${dayText(period.from)} to ${dayText(period.to)}`;
  return [
    ...wrappedText(
      `${countText(technicians, 'technician')} and ${countText(crews, 'crew')}, ${countText(jobs, 'judged job')}${when}, by the policy ${policyId}.`,
    ),
    ...(undated === 0
      ? []
      : wrappedText(`${countText(undated, 'judged job')} without a record of when and by whom: not in here.`)),
  ];
}

function standingOutLines(report: FleetReport): string[] {
  const shown = withoutRepeats(report.standingOut);
  const held = `Found more often than others’ jobs lead to expect, beyond chance and beyond how people usually differ. Over many such lists one name in ${Math.round(1 / report.falseDiscoveryLimit)} is there by chance; ${groupedCount(report.tested.people)} comparisons of people and ${groupedCount(report.tested.shared)} of crews and gear were made.`;
  if (!isAnybodyHeld(report)) return ['Who stands out', `  ${nothingToldYet}`];
  if (shown.length === 0) return ['Who stands out', ...wrappedText(`Nobody. ${held}`, '  ')];
  return [
    'Who stands out',
    ...wrappedText(held, '  '),
    ...shown
      .slice(0, most.standingOut)
      .flatMap((one) => [
        '',
        `  ${unitText(one.unit)}: ${one.skill.title}`,
        ...[excessText(one), mostText(one, String), laidToText(one)].flatMap((text) =>
          text === '' ? [] : wrappedText(text, '    '),
        ),
      ]),
    ...(shown.length > most.standingOut
      ? ['', `  and ${shown.length - most.standingOut} more: dryhold fleet --json`]
      : []),
  ];
}

function gridLines(report: FleetReport): string[] {
  const { heads, rows, left } = skillGrid(report);
  if (rows.length === 0) return ['No job names a technician, so nothing can be said by technician.'];
  return [
    'Technicians: found of judged jobs, times what is expected of such jobs',
    textTable(heads, rows).replaceAll(/^/gm, '  '),
    ...wrappedText(
      '* stands out; ° stands out, laid to what is shared. In brackets: fewer than ten judged jobs, too few to tell. not judged: share of all that could be judged in these jobs and was not, for want of a log or of good readings.',
      '  ',
    ),
    ...usualLines(report),
    ...(left > 0 ? [`  ${groupedCount(left)} more technicians: dryhold fleet --json`] : []),
    '  One skill or check, with intervals: dryhold fleet rise; dryhold fleet hold-short',
  ];
}

/** In which skills people differ so much that much is taken for usual. */
function usualLines({ rates }: FleetReport): string[] {
  const differing = rates.flatMap(({ skill, groupings }) =>
    groupings
      .filter(({ kind, usualSpread }) => kind === 'technician' && usualSpread > 0)
      .map(({ usualSpread }) => `${skill.title} (odds × ${Math.exp(usualSpread).toPrecision(2)})`),
  );
  if (differing.length === 0) return [];
  return wrappedText(
    `People differ beyond chance in ${differing.join(', ')}: as much, or its inverse, is taken for usual, and only what goes beyond it stands out.`,
    '  ',
  );
}

function changeLines(report: FleetReport): string[] {
  const joined = joinedChanges(report.changes);
  const { series, byChance } = report.lookedAt;
  const chance = byChance < 1 ? 'fewer than one' : `about ${groupedCount(Math.round(byChance))}`;
  const held = `Of ${countText(series, 'series', 'series')} ${chance} would show a change by chance alone.`;
  return [
    'Changes over time, season and mix of jobs taken out',
    ...wrappedText(joined.length === 0 ? `None. ${held}` : held, '  '),
    ...surest(joined, most.changes).flatMap((change) => wrappedText(changeText(change), '  ')),
    ...(joined.length > most.changes
      ? [
          `  and ${groupedCount(joined.length - most.changes)} more, told by fewer charts or earlier: dryhold fleet --json`,
        ]
      : []),
  ];
}

function trainingLines({ trainings }: FleetReport): string[] {
  if (trainings.length === 0) return [];
  return [
    '',
    'Trainings: the jobs after them beside what was to be expected from before',
    ...wrappedText('Who is sent after a bad stretch gets better by chance alone; that is taken off.', '  '),
    ...trainings.flatMap((training) => wrappedText(trainingText(training), '  ')),
  ];
}

function ratesLines({ skill, fleet, groupings }: RatesReport): string[] {
  const share = percentText(fleet.jobs === 0 ? null : fleet.found / fleet.jobs);
  return [
    ...wrappedText(
      `${skill.title}: ${groupedCount(fleet.found)} of ${groupedCount(fleet.jobs)} judged jobs (${share}) had ${skill.counts}; ${groupedCount(fleet.notEvaluated)} could not be judged, ${groupedCount(fleet.missing)} had nothing to judge by.`,
    ),
    ...groupings.flatMap((grouping) => {
      const { units, usualSpread } = grouping;
      const { shown, left } = rowsShown(units);
      if (shown.length === 0) return [];
      const { heads, rows } = rateTable(grouping, shown);
      return [
        '',
        textTable(heads, rows).replaceAll(/^/gm, '  '),
        ...(left > 0 ? [`  ${groupedCount(left)} more, nearer to what is expected: --json`] : []),
        ...(usualSpread > 0
          ? wrappedText(
              `They differ more than chance makes them: as much is taken for usual (odds × ${Math.exp(usualSpread).toPrecision(2)} or its inverse are common).`,
              '  ',
            )
          : []),
      ];
    }),
  ];
}
