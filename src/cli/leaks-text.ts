import { dateOf } from '../numerics/calendar-day.ts';
import { vintageText } from '../accounts/gwp.ts';
import type { LeakLine, LeaksReport, WorthLine } from '../pages/leaks-data.ts';
import { apartText } from '../pages/apart-text.ts';
import { co2eFigure } from '../pages/co2e-text.ts';
import { dayText } from '../pages/day-text.ts';
import { ruleCountText } from '../pages/rule-section.ts';
import { leakRateText } from '../pages/rule-text.ts';
import { countText, groupedCount, moneyText, percentText } from '../pages/share-text.ts';
import { bookedMassText, type UnitSystem, withoutUnit } from '../units/display.ts';
import { textTable } from './text-table.ts';
import { wrappedText } from './wrapped-text.ts';

/** Of more only so many are told. */
const most = { ruled: 30, others: 8, worth: 10 } as const;
const margin = '  ';

/** The report on leaks for a terminal. */
export function leaksText(report: LeaksReport, units: UnitSystem): string {
  const { appliances, withLeaks, asOf, lastDay, vintage, method, ruled } = report;
  if (appliances === 0)
    return [
      ...wrappedText(
        'No appliance is on record, so there is no full charge to hold additions against. Export the table appliances, and ingest it.',
      ),
      ...apartLines(report, units),
    ].join('\n');
  const over = ruled.filter(({ isOver }) => isOver[method]);
  const repaired = over.filter(({ repairedDay }) => repairedDay !== null).length;
  const until = asOf === lastDay ? 'the last day on record' : `the record ends on ${dayText(lastDay)}`;
  return [
    ...wrappedText(
      `As of ${dayText(asOf)} (${until}): ${countText(appliances, 'appliance')}, refrigerant was added for leaks to ${groupedCount(withLeaks)}; a rule on leak rates applies to ${groupedCount(ruled.length)}, and ${over.length === 0 ? 'none of these is' : over.length === 1 ? '1 of these is' : `${groupedCount(over.length)} of these are`} over its trigger by the ${method} method${repaired > 0 ? ` (${groupedCount(repaired)} repaired since)` : ''}. CO₂e by the values of ${vintageText[vintage]}.`,
    ),
    '',
    ...ruledLines(report, units),
    '',
    ...ruleLines(report),
    '',
    ...worthLines(report, units),
    '',
    ...otherLines(report, units),
    ...apartLines(report, units),
    '',
    ...wrappedText(report.notice),
    ...wrappedText('What is due when: dryhold due. One appliance, step by step: dryhold leaks APPLIANCE'),
  ].join('\n');
}

function rateRow(
  { appliance, trigger, latest, isOver, repairedDay, yearKg, year }: LeakLine,
  units: UnitSystem,
  withTrigger: boolean,
): string[] {
  const figure = (kg: number | null) => (kg === null ? '–' : withoutUnit(bookedMassText(kg, units)));
  const mark = (rate: number | undefined, over: boolean) =>
    rate === undefined ? '–' : `${leakRateText(rate)}${over ? ' *' : ''}`;
  return [
    appliance.systemId,
    appliance.refrigerant ?? appliance.writtenRefrigerant ?? '–',
    figure(appliance.fullChargeKg),
    latest === null ? '–' : dayText(dateOf(latest.addition.lastDay)),
    figure(latest?.addition.kg ?? null),
    latest === null ? '–' : `${latest.days}${latest.daysFrom === 'last-addition' ? '' : '†'}`,
    mark(latest?.annualising, isOver.annualising),
    mark(latest?.rolling, isOver.rolling),
    ...(withTrigger ? [percentText(trigger), repairedDay === null ? '' : dayText(dateOf(repairedDay))] : []),
    figure(yearKg),
    co2eFigure(year.co2eT),
  ];
}

function heads(units: UnitSystem, withTrigger: boolean): string[] {
  const unit = units === 'si' ? 'kg' : 'lb';
  return [
    '',
    '',
    `charge, ${unit}`,
    'last added',
    unit,
    'over days',
    'annualising',
    'rolling',
    ...(withTrigger ? ['trigger', 'repaired since'] : []),
    `365 days, ${unit}`,
    't CO₂e',
  ];
}

function ruledLines(report: LeaksReport, units: UnitSystem): string[] {
  const { ruled } = report;
  const title = 'Leak rates of appliances to which a rule on leak rates applies';
  if (ruled.length === 0) return [title, `${margin}There is none.`];
  const left = ruled.length - most.ruled;
  const names = heads(units, true);
  return [
    title,
    textTable(
      names,
      ruled.slice(0, most.ruled).map((line) => rateRow(line, units, true)),
      {
        margin,
        right: names.map((_, at) => at).filter((at) => at > 1 && at !== 3),
      },
    ),
    ...(left > 0 ? [`${margin}${groupedCount(left)} more: dryhold leaks --csv`] : []),
    ...wrappedText(
      '*: over the trigger. †: 365 days, since no addition before it is on record, or since the rule counts from its own first day on.',
      margin,
    ),
    ...report.chronic.map(
      ({ systemId, year, ruleId }) =>
        `${margin}${systemId}: ${percentText(year.ratio)} of its charge was added in ${year.year}; from 125% on a report is due (${ruleId}).`,
    ),
  ];
}

function ruleLines({ rules, jurisdiction }: LeaksReport): string[] {
  const assumed = jurisdiction === null ? '' : `, ${jurisdiction} where the record does not say`;
  return [
    `Which rule applies${assumed}`,
    ...rules.flatMap((rule) => [
      ...wrappedText(`${rule.title}: ${ruleCountText(rule)}`, margin),
      ...wrappedText(
        `known by: ${rule.bases.join(', ')}; holds from ${dayText(rule.from)}; records for ${rule.recordsYears} years`,
        `${margin}${margin}`,
      ),
    ]),
  ];
}

function worthLines({ worth }: LeaksReport, units: UnitSystem): string[] {
  const title = 'Most worth repairing, by what was added since the last repair';
  if (worth.length === 0) return [title, `${margin}None: nothing tells what any appliance loses in a year.`];
  const unit = units === 'si' ? 'kg' : 'lb';
  const figure = (kg: number) => withoutUnit(bookedMassText(kg, units));
  const names = [
    '',
    '',
    `loses a year, ${unit}`,
    'single additions',
    'additions',
    'cost a year',
    't CO₂e a year',
    'repair',
    'of',
    'paid back in',
  ];
  const row = ({ appliance, loss, worth: of, repairCost, repairCostOf, paidBackYears }: WorthLine) => [
    appliance.systemId,
    appliance.refrigerant ?? '–',
    figure(loss.kgPerYear),
    loss.additions === 1 ? '–' : `${figure(loss.lowKgPerYear)}–${figure(loss.highKgPerYear)}`,
    groupedCount(loss.additions),
    moneyText(of.cost),
    co2eFigure(of.co2eT),
    moneyText(repairCost),
    repairCostOf ?? '–',
    paidBackYears === null ? '–' : paidBackYears < 10 ? `${paidBackYears.toFixed(1)} years` : 'over 10 years',
  ];
  return [
    title,
    textTable(names, worth.slice(0, most.worth).map(row), { margin, right: [2, 3, 4, 5, 6, 7, 9] }),
    ...wrappedText(
      'By cost a year. Loss: what was added since it was repaired, or known to be full. Repair: the middle cost on record of repairs of this appliance (own), its sector, or all. Paid back by refrigerant alone; energy, wear and duties are not in it.',
      margin,
    ),
  ];
}

function otherLines({ others }: LeaksReport, units: UnitSystem): string[] {
  if (others.length === 0) return [];
  const names = heads(units, false);
  return [
    'Highest rates where no such rule applies',
    textTable(
      names,
      others.slice(0, most.others).map((line) => rateRow(line, units, false)),
      {
        margin,
        right: names.map((_, at) => at).filter((at) => at > 1 && at !== 3),
      },
    ),
    '',
  ];
}

function apartLines({ apart }: LeaksReport, units: UnitSystem): string[] {
  if (apart.length === 0) return ['Nothing had to be kept apart.'];
  return ['Cannot be accounted, because', ...apart.flatMap((group) => wrappedText(apartText(group, units), margin))];
}
