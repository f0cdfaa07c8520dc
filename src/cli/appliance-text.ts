import { dateOf } from '../numerics/calendar-day.ts';
import type { LeakEvent } from '../accounts/appliance-leaks.ts';
import type { ApplianceReport } from '../pages/leaks-data.ts';
import { apartText } from '../pages/apart-text.ts';
import { co2eText } from '../pages/co2e-text.ts';
import { dayText } from '../pages/day-text.ts';
import { leakRateText, obligationText, reasonDetail, sectorText, sinceText } from '../pages/rule-text.ts';
import { percentText } from '../pages/share-text.ts';
import { bookedMassText, type UnitSystem, withoutUnit } from '../units/display.ts';
import { dueText } from './due-text.ts';
import { textTable } from './text-table.ts';
import { wrappedText } from './wrapped-text.ts';

const margin = '  ';

/** One appliance for a terminal: what was added, the arithmetic of every rate, which rule applies, what it asks. */
export function applianceText(report: ApplianceReport, units: UnitSystem): string {
  const { additions, apart, ruled, obligations, events } = report;
  const taken = ruled.find((one) => one.events.length > 0)?.events ?? events;
  return [
    ...headLines(report, units),
    '',
    ...(additions.length === 0 ? ['Nothing is on record that was added or removed.'] : [additionTable(report, units)]),
    '',
    ...rateLines(taken, report, units),
    '',
    'Which rule applies',
    ...ruled.flatMap(({ rule, verdict }) => {
      const states = { applies: 'applies', 'does-not': 'does not apply', unknown: 'cannot be told' } as const;
      const trigger = verdict.trigger === undefined ? '' : `, trigger ${percentText(verdict.trigger)}`;
      const interval = verdict.everyMonths === undefined ? '' : `, a check every ${verdict.everyMonths} months`;
      return wrappedText(
        `${rule.title}: ${states[verdict.state]}: ${reasonDetail(verdict.reason, units)}${trigger}${interval}`,
        margin,
      );
    }),
    '',
    'What it asks',
    ...(obligations.length === 0 ? [`${margin}Nothing that is on record.`] : []),
    ...obligations.flatMap((one) =>
      wrappedText(`${obligationText[one.kind]}, ${sinceText(one)}: ${dueText(one)}`, margin),
    ),
    ...(apart.length === 0
      ? []
      : [
          '',
          'Cannot be accounted, because',
          ...apart.flatMap((group) => wrappedText(apartText(group, units), margin)),
        ]),
    '',
    ...wrappedText(report.notice),
  ].join('\n');
}

function headLines({ appliance, charge, vintage, asOf }: ApplianceReport, units: UnitSystem): string[] {
  const { systemId, siteId, refrigerant, writtenRefrigerant, fullChargeKg, fullChargeBasis, sector, jurisdiction } =
    appliance;
  const bases = {
    maker: 'the maker’s value',
    calculated: 'calculated',
    measured: 'measured',
    range: 'the middle of an established range',
  };
  const basis = fullChargeBasis === null ? 'how it is known is not on record' : bases[fullChargeBasis];
  const full =
    fullChargeKg === null
      ? 'full charge not on record'
      : `full charge ${bookedMassText(fullChargeKg, units)} (${basis}), ${co2eText(charge.co2eT, vintage)}`;
  const where = [
    siteId,
    sector === null ? 'sector not on record' : sectorText[sector],
    jurisdiction ?? 'jurisdiction not on record',
  ];
  return wrappedText(
    `${systemId}: ${refrigerant ?? writtenRefrigerant ?? 'refrigerant not on record'}, ${full}; ${where.filter((one) => one !== null).join(', ')}. As of ${dayText(asOf)}.`,
  );
}

function additionTable({ additions }: ApplianceReport, units: UnitSystem): string {
  const unit = units === 'si' ? 'kg' : 'lb';
  const rows = additions.map(({ day, kg, purpose, leakId, source }) => [
    dayText(dateOf(day)),
    withoutUnit(bookedMassText(kg, units)),
    purpose,
    leakId ?? '–',
    source,
  ]);
  return textTable(['day', `put in, net, ${unit}`, 'for', 'leak', 'by'], rows, { right: [1] });
}

/** Every rate with its arithmetic, so that anybody can check it. */
function rateLines(
  events: readonly LeakEvent[],
  { appliance: { fullChargeKg }, years }: ApplianceReport,
  units: UnitSystem,
): string[] {
  if (fullChargeKg === null) return ['Without a full charge there is no leak rate.'];
  if (events.length === 0) return ['Nothing was added for a leak that counts, so there is no leak rate.'];
  const full = bookedMassText(fullChargeKg, units);
  const why = {
    'last-addition': 'since refrigerant was added last',
    'none-before': 'since nothing before it is on record',
    'first-under-rule': 'as the first under the rule',
  } as const;
  return [
    'Leak rates',
    ...events.flatMap(({ addition, days, daysFrom, annualising, rolling, rollingKg, rollingAfterDay }) => {
      const kg = bookedMassText(addition.kg, units);
      const when =
        addition.day === addition.lastDay
          ? dayText(dateOf(addition.day))
          : `${dayText(dateOf(addition.day))} to ${dayText(dateOf(addition.lastDay))}`;
      return [
        ...wrappedText(`${when}${addition.leakId === null ? '' : `, ${addition.leakId}`}`, margin),
        ...wrappedText(
          `annualising: ${kg} ÷ ${full} × 365 ÷ ${days} days ${why[daysFrom]} = ${leakRateText(annualising)}`,
          `${margin}${margin}`,
        ),
        ...wrappedText(
          `rolling: ${bookedMassText(rollingKg, units)} since ${dayText(dateOf(rollingAfterDay + 1))} ÷ ${full} = ${leakRateText(rolling)}`,
          `${margin}${margin}`,
        ),
      ];
    }),
    ...years.map(
      ({ year, kg, ratio }) =>
        `${margin}${year}: ${bookedMassText(kg, units)} added for leaks, ${percentText(ratio)} of the full charge`,
    ),
  ];
}
