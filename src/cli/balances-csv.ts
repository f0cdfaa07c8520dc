import { vintageText } from '../accounts/gwp.ts';
import type { Grouping } from '../accounts/booked-ledger.ts';
import type { AccountsReport } from '../pages/accounts-data.ts';
import type { UnitSystem } from '../units/display.ts';
import { fromInterchange } from '../units/unit.ts';
import { csvText } from './csv-text.ts';

/** Balances as a table for a spreadsheet: masses in kilograms or pounds, as the heads say, and whose values CO₂e goes by. */
export function balancesCsv(report: AccountsReport, by: Grouping, units: UnitSystem): string {
  const unit = units === 'si' ? 'kg' : 'lb';
  const mass = (kg: number | null) => (kg === null ? null : Number(fromInterchange(kg, unit).toFixed(4)));
  const money = (cost: number | null) => (cost === null ? null : Number(cost.toFixed(2)));
  const tons = (co2eT: number | null) => (co2eT === null ? null : Number(co2eT.toFixed(4)));
  const rows = report.lines[by].map((line) => ({
    [by]: line.name,
    from: report.period.from,
    to: report.period.to,
    [`opening_${unit}`]: mass(line.openingKg),
    [`bought_${unit}`]: mass(line.boughtKg),
    [`recovered_${unit}`]: mass(line.recoveredKg),
    [`charged_${unit}`]: mass(line.chargedKg),
    [`returned_${unit}`]: mass(line.returnedKg),
    [`untold_${unit}`]: mass(line.untoldKg),
    [`unexplained_${unit}`]: mass(line.unexplainedKg),
    [`unexplained_95_${unit}`]: mass(line.unexplainedHalfWidthKg),
    [`on_hand_${unit}`]: mass(line.onHandKg),
    bought_cost: money(line.cost),
    charged_cost: money(line.charged.cost),
    charged_co2e_t: tons(line.charged.co2eT),
    unexplained_co2e_t: tons(line.unexplained.co2eT),
    gwp_vintage: vintageText[report.vintage],
  }));
  const [first] = rows;
  return csvText(Object.keys(first ?? { [by]: null }), rows);
}
