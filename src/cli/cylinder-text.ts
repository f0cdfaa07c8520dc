import { dateOf } from '../numerics/calendar-day.ts';
import { unexplainedHalfWidthKg } from '../accounts/balance.ts';
import type { CylinderLedgerLine, CylinderReport } from '../pages/accounts-data.ts';
import { apartReasonText } from '../pages/apart-text.ts';
import { cylinderRemarkText } from '../pages/cylinder-remark-text.ts';
import { dayText } from '../pages/day-text.ts';
import { bookedMassText, type UnitSystem, withoutUnit } from '../units/display.ts';
import { textTable } from './text-table.ts';
import { wrappedText } from './wrapped-text.ts';

const margin = '  ';

/** A cylinder's ledger for a terminal. */
export function cylinderText(report: CylinderReport, units: UnitSystem): string {
  const { cylinder, lines, remarks, apart, noAccount } = report;
  const { cylinderId, refrigerant, writtenRefrigerant, kind, acquiredDay, netKg, tareKg, closedDay, closingKg } =
    cylinder;
  const mass = (kg: number | null) => (kg === null ? 'not on record' : bookedMassText(kg, units));
  const day = (at: number | null) => (at === null ? 'on a day that is not on record' : dayText(dateOf(at)));
  const closed = closedDay === null ? 'still open' : `closed ${day(closedDay)} with ${mass(closingKg)}`;
  return [
    ...wrappedText(
      `${cylinderId}: ${refrigerant ?? writtenRefrigerant ?? 'refrigerant not on record'}, ${kind}, came ${day(acquiredDay)} with ${mass(netKg)} in it, empty ${mass(tareKg)}; ${closed}.`,
    ),
    ...(noAccount === null ? [] : wrappedText(`It has no account, because ${apartReasonText(noAccount)}.`)),
    '',
    ...(lines.length === 0 ? ['No weighing of it is on record.'] : [ledgerTable(lines, units)]),
    '',
    ...balanceLines(report, units),
    ...(remarks.length === 0 ? [] : ['', 'To look at']),
    ...remarks.flatMap((remark) => wrappedText(cylinderRemarkText(remark, units), margin)),
    ...(apart.length === 0 ? [] : ['', 'Cannot be accounted, because']),
    ...apart.map(({ weighingId, reason }) => `${margin}${weighingId}: ${apartReasonText(reason)}`),
    '',
    ...wrappedText(
      'What is missing came about between two weighings, and may have leaked, been used, been weighed wrongly or been taken: who weighed before and after says nothing of that.',
    ),
  ].join('\n');
}

function ledgerTable(lines: readonly CylinderLedgerLine[], units: UnitSystem): string {
  const figure = (kg: number | null) => (kg === null ? '–' : withoutUnit(bookedMassText(kg, units)));
  const unit = units === 'si' ? 'kg' : 'lb';
  const heads = ['day', 'weighing', 'job', 'by', `before, ${unit}`, 'after', 'out', 'missing', 'then in it'];
  const rows = lines.map((line) => [
    dayText(line.on),
    line.weighingId,
    line.jobId ?? '–',
    line.technician ?? line.crew ?? '–',
    `${figure(line.startKg)}${line.mended?.which === 'start' ? ` → ${figure(line.mended.kg)}` : ''}`,
    `${figure(line.endKg)}${line.mended?.which === 'end' ? ` → ${figure(line.mended.kg)}` : ''}`,
    figure(line.outKg),
    `${figure(line.missingKg)}${line.isBeyond ? ' *' : ''}`,
    figure(line.contentKg),
  ]);
  return `${textTable(heads, rows, { margin, right: [4, 5, 6, 7, 8] })}
${margin}missing: what the scale should have shown before, by the weighing before, less what it showed. *: the scale does not explain it.
${margin}→: as it is counted, where the scale’s series, or the job’s own figure, and the weighings next to it say otherwise. out below 0: recovered into it.`;
}

function balanceLines({ balance, closing, lastDay }: CylinderReport, units: UnitSystem): string[] {
  const mass = (kg: number) => bookedMassText(kg, units);
  const { boughtKg, recoveredKg, chargedKg, returnedKg, unexplainedKg, untoldKg, onHandKg } = balance;
  const left = `${mass(boughtKg)} came + ${mass(recoveredKg)} recovered`;
  const unexplained = unexplainedKg < 0 ? `− ${mass(-unexplainedKg)} too much` : `+ ${mass(unexplainedKg)} unexplained`;
  const right = `${mass(chargedKg)} charged + ${mass(returnedKg)} returned ${unexplained}${untoldKg > 0 ? ` + ${mass(untoldKg)} not weighed` : ''} + ${mass(onHandKg)} on hand (${dayText(lastDay)})`;
  return [
    ...wrappedText(`${left} = ${right}.`),
    ...wrappedText(
      `Unexplained is good to ± ${mass(unexplainedHalfWidthKg(balance))} (95%)${closing === null ? '' : `; of it ${mass(closing.kg)} came to light when it was closed`}.`,
    ),
  ];
}
