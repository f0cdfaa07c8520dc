import { dateOf } from '../numerics/calendar-day.ts';
import { pageColours } from '../charts/chart-colours.ts';
import { leakRateRowPx, leakRates } from '../charts/leak-rates.ts';
import { bookedMassText, withoutUnit } from '../units/display.ts';
import { co2eFigure } from './co2e-text.ts';
import { dayText } from './day-text.ts';
import { figureTable } from './figure-table.ts';
import { type Html, html } from './html.ts';
import type { OwnerData } from './owner-data.ts';
import type { PageCharts } from './page-charts.ts';
import { leakRateText } from './rule-text.ts';
import { groupedCount, moneyText, percentText } from './share-text.ts';

/** Of more only so many are drawn and told. */
const most = { rows: 25, worth: 10 } as const;

/** Leak rates beside their triggers, and what is worth repairing. */
export async function leakSection({ leaks, units }: OwnerData, charts: PageCharts): Promise<Html> {
  const { ruled, method, worth } = leaks;
  const unit = units === 'si' ? 'kg' : 'lb';
  const figure = (kg: number | null) => (kg === null ? '–' : withoutUnit(bookedMassText(kg, units)));
  const shown = ruled.slice(0, most.rows);
  const rows = shown.flatMap(({ appliance, latest, trigger, isOver }) =>
    latest === null || trigger === null
      ? []
      : [
          {
            systemId: appliance.systemId,
            month: dateOf(latest.addition.lastDay).slice(0, 7),
            refrigerant: appliance.refrigerant ?? '',
            rate: latest[method],
            trigger,
            isOver: isOver[method],
          },
        ],
  );
  const description = `Leak rate of each appliance by the ${method} method beside its trigger.`;
  const chart =
    rows.length === 0
      ? null
      : await charts.figure({
          name: 'leak-rates',
          title: `Leak rate by the ${method} method`,
          note: 'Dot: rate; diamond: over the trigger. Upright bar: trigger.',
          noteOnPage: 'Filtered by refrigerant and by when refrigerant was last added; a leak is nobody’s.',
          chart: leakRates(rows, { colours: pageColours }),
          description,
          figuresAt: 'The table below has the figures.',
          heightPx: rows.length * leakRateRowPx + 60,
          isNarrow: true,
        });
  const rates = figureTable({
    caption: `Latest leak rates as of ${dayText(leaks.asOf)} [${unit}]`,
    heads: [
      '',
      'refrigerant',
      'full charge',
      'last added',
      'added',
      'over days',
      'annualising',
      'rolling',
      'trigger',
      'within a year',
      't CO₂e',
    ],
    texts: [1],
    rows: shown.map(({ appliance, latest, isOver, trigger, repairedDay, yearKg, year }) => [
      `${appliance.systemId}${repairedDay === null ? '' : `, repaired ${dayText(dateOf(repairedDay))}`}`,
      appliance.refrigerant ?? '–',
      figure(appliance.fullChargeKg),
      latest === null ? '–' : dayText(dateOf(latest.addition.lastDay)),
      figure(latest?.addition.kg ?? null),
      latest === null ? '–' : `${latest.days}${latest.daysFrom === 'last-addition' ? '' : '†'}`,
      latest === null ? '–' : `${leakRateText(latest.annualising)}${isOver.annualising ? ' over' : ''}`,
      latest === null ? '–' : `${leakRateText(latest.rolling)}${isOver.rolling ? ' over' : ''}`,
      percentText(trigger),
      figure(yearKg),
      co2eFigure(year.co2eT),
    ]),
  });
  return html`<section aria-labelledby="leaks">
<h2 id="leaks">Which leak rates are over their trigger?</h2>
${ruled.length === 0 ? html`<p>No rule on leak rates applies to any appliance on record; see below which rule applies to what, and why.</p>` : html`${chart}${rates}`}
${ruled.length > most.rows && html`<p class="quiet">${groupedCount(shown.length)} of ${groupedCount(ruled.length)} shown: <code>dryhold leaks --csv</code> has all.</p>`}
${ruled.length > 0 && html`<p class="quiet">†: 365 days, since no addition before it is on record, or since the rule counts from its own first day on. One method for all appliances of a facility.</p>`}
${leaks.chronic.map(({ systemId, year }) => html`<p>${systemId}: ${percentText(year.ratio)} of its full charge was added in ${year.year}; from 125% on a report is due.</p>`)}
${
  worth.length > 0 &&
  html`<h3>Most worth repairing</h3>${figureTable({
    caption: `By what was added since the last repair [${unit} a year]; repair: the middle cost on record of this appliance, its sector, or all`,
    heads: ['', 'loses', 'single additions', 'cost a year', 't CO₂e a year', 'a repair costs', 'paid back in'],
    rows: worth
      .slice(0, most.worth)
      .map(({ appliance, loss, worth: of, repairCost, paidBackYears }) => [
        `${appliance.systemId} (${appliance.refrigerant ?? 'refrigerant not known'})`,
        figure(loss.kgPerYear),
        loss.additions === 1 ? '1' : `${loss.additions}: ${figure(loss.lowKgPerYear)}–${figure(loss.highKgPerYear)}`,
        moneyText(of.cost),
        co2eFigure(of.co2eT),
        moneyText(repairCost),
        paidBackYears === null ? '–' : paidBackYears < 10 ? `${paidBackYears.toFixed(1)} years` : 'over 10 years',
      ]),
  })}<p class="quiet">By refrigerant alone; energy, wear and duties are not in it.</p>`
}
</section>`;
}
