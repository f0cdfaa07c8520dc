import { dateOf } from '../numerics/calendar-day.ts';
import { vintageText } from '../accounts/gwp.ts';
import type { LeaksReport } from '../pages/leaks-data.ts';
import type { UnitSystem } from '../units/display.ts';
import { fromInterchange } from '../units/unit.ts';
import { csvText } from './csv-text.ts';

/** Appliances with their leak rates as a table for a spreadsheet. */
export function leaksCsv(report: LeaksReport, units: UnitSystem): string {
  const unit = units === 'si' ? 'kg' : 'lb';
  const mass = (kg: number | null) => (kg === null ? null : Number(fromInterchange(kg, unit).toFixed(4)));
  const rounded = (value: number | null) => (value === null ? null : Number(value.toFixed(6)));
  const rules = new Map(report.rules.map((rule) => [rule.id, rule]));
  const rows = [...report.ruled, ...report.others].map(
    ({ appliance, ruleId, trigger, latest, isOver, repairedDay, yearKg, year }) => {
      const rule = rules.get(ruleId ?? '');
      return {
        system_id: appliance.systemId,
        site_id: appliance.siteId,
        refrigerant: appliance.refrigerant ?? appliance.writtenRefrigerant,
        sector: appliance.sector,
        [`full_charge_${unit}`]: mass(appliance.fullChargeKg),
        full_charge_basis: appliance.fullChargeBasis,
        as_of: report.asOf,
        last_addition_on: latest === null ? null : dateOf(latest.addition.lastDay),
        [`added_${unit}`]: mass(latest?.addition.kg ?? null),
        over_days: latest?.days ?? null,
        leak_rate_annualising_ratio: rounded(latest?.annualising ?? null),
        leak_rate_rolling_ratio: rounded(latest?.rolling ?? null),
        trigger_ratio: trigger,
        over_annualising: isOver.annualising,
        over_rolling: isOver.rolling,
        repaired_since_on: repairedDay === null ? null : dateOf(repairedDay),
        [`added_last_365_days_${unit}`]: mass(yearKg),
        co2e_last_365_days_t: rounded(year.co2eT),
        gwp_vintage: vintageText[report.vintage],
        rule_id: ruleId,
        rule_known_by: rule?.bases.join('; ') ?? null,
        notice: report.notice,
      };
    },
  );
  return csvText(Object.keys(rows[0] ?? { system_id: null }), rows);
}
