import { pageColours } from '../charts/chart-colours.ts';
import { co2eByMonth } from '../charts/co2e-by-month.ts';
import { refrigerantCostByMonth } from '../charts/refrigerant-cost-by-month.ts';
import { unexplainedByMonth } from '../charts/unexplained-by-month.ts';
import { bookedMassText, type UnitSystem } from '../units/display.ts';
import { toInterchange } from '../units/unit.ts';
import { vintageText } from '../accounts/gwp.ts';
import { co2eFigure } from './co2e-text.ts';
import { timesBetween } from './times-between.ts';
import type { BalanceLine } from './accounts-data.ts';
import { balanceColumns, type BalanceColumnsOptions } from './balance-columns.ts';
import { causeWords } from './callback-text.ts';
import { cylinderRemarkText } from './cylinder-remark-text.ts';
import { monthText } from './day-text.ts';
import { figureTable } from './figure-table.ts';
import { type Html, html } from './html.ts';
import type { OwnerData } from './owner-data.ts';
import type { PageCharts } from './page-charts.ts';
import { countText, groupedCount, moneyText } from './share-text.ts';
import { signalText } from './trend-text.ts';

/** Of more only so many cylinders are told. */
const mostCylinders = 20;
const chartPx = 230;

/** Where the refrigerant went, what is missing month by month, and which cylinders to look at. */
export async function balanceSection({ accounts, cells, units }: OwnerData, charts: PageCharts): Promise<Html> {
  const { lines, total, trend, signals, vintageNotes, apartKg, vintage } = accounts;
  if (accounts.cylinders === 0)
    return html`<section aria-labelledby="balances"><h2 id="balances">Balances</h2><p>No cylinder with weighings is on record, so there is nothing to balance.</p></section>`;
  const unit = units === 'si' ? 'kg' : 'lb';
  const figures = cells.rows.length === 0 ? null : await monthFigures({ accounts, cells, units }, charts);
  return html`<section aria-labelledby="balances">
<h2 id="balances">Where did the refrigerant go, and how much is missing?</h2>
<p>Opening + bought + recovered = charged + returned + unexplained + on hand. Charged is what left the cylinders for systems, what stays in hoses included; unexplained above 0 is missing.</p>
${balanceTable(`By refrigerant [${unit}]`, lines.refrigerant, total, (name) => name, { units, vintage })}
${apartKg > 0 && html`<p>Of what is missing, ${bookedMassText(apartKg, units)} are as much as weighings took that are kept apart: <a href="#apart">see below</a>.</p>`}
${vintageNotes.length > 0 && html`<p class="quiet">${vintageNotes.join('; ')}.</p>`}
${figures}
${signals.length > 0 && html`<ul class="notes">${signals.map((signal) => html`<li>${signalText(signal, units)}</li>`)}</ul>`}
<details><summary>By month and by crew, as tables</summary>
${balanceTable(`By month, all refrigerants [${unit}]`, lines.month, total, monthText, { units, vintage, trend })}
${balanceTable(`By crew: cylinders that one crew alone used [${unit}]`, lines.crew, undefined, (name) => (name === '' ? 'shared, or unused' : name), { units, vintage })}
</details>
${cylinderList(accounts.remarked, units)}
${callbackTable(accounts, units)}
</section>`;
}

/** What is missing, and what was charged as cost and as CO₂e, over time. */
async function monthFigures(
  { accounts: { total, vintage }, cells, units }: Pick<OwnerData, 'accounts' | 'cells' | 'units'>,
  charts: PageCharts,
): Promise<Html> {
  const unit = units === 'si' ? 'kg' : 'lb';
  charts.addTable('balance-cells', cells.rows);
  const months = timesBetween(
    cells.rows.map(({ month }) => month),
    cells.grain,
  );
  const shown = { months, unit, kgPerShown: toInterchange(1, unit), colours: pageColours };
  const each = cells.grain;
  const missing = `Missing refrigerant per ${each} with 95% interval, in ${unit}; over all ${bookedMassText(total.unexplainedKg, units)}.`;
  const cost = `Cost of the refrigerant charged per ${each}; over all ${moneyText(total.charged.cost)}.`;
  const co2e = `Refrigerant charged per ${each} as tonnes of carbon dioxide, by the values of ${vintageText[vintage]}; over all ${co2eFigure(total.charged.co2eT)} t.`;
  return html`<div class="multiples">
${await charts.figure({
  name: 'unexplained-by-month',
  subject: 'Refrigerant',
  title: `Missing each ${each}`,
  note: 'Dot: missing. Bar: 95% interval; where it crosses the dashed line, scales explain it. Diamond: they do not.',
  chart: unexplainedByMonth(shown),
  description: missing,
  figuresAt: 'The table below has the figures.',
  heightPx: chartPx,
})}
${await charts.figure({
  name: 'refrigerant-cost-by-month',
  subject: 'Refrigerant',
  title: 'Cost of what was charged',
  note: 'in the shop’s currency, by the prices paid',
  chart: refrigerantCostByMonth(shown),
  description: cost,
  figuresAt: 'The table below has the masses.',
  heightPx: chartPx,
})}
${await charts.figure({
  name: 'co2e-by-month',
  subject: 'Refrigerant',
  title: 'What was charged, as CO₂e',
  note: 'put into systems, not lost to the air',
  chart: co2eByMonth({ ...shown, vintageText: vintageText[vintage] }),
  description: co2e,
  figuresAt: 'The table below has the masses.',
  heightPx: chartPx,
})}
</div>`;
}

function balanceTable(
  caption: string,
  lines: readonly BalanceLine[],
  total: BalanceLine | undefined,
  nameOf: (name: string) => string,
  options: BalanceColumnsOptions,
): Html {
  const columns = balanceColumns(lines, options);
  const cells = (line: BalanceLine, name: string) => [name, ...columns.map(({ cell }) => cell(line))];
  return figureTable({
    caption,
    heads: ['', ...columns.map(({ head }) => head)],
    rows: lines.map((line) => cells(line, nameOf(line.name))),
    total: total === undefined || lines.length < 2 ? undefined : cells(total, 'all'),
  });
}

function cylinderList(remarked: OwnerData['accounts']['remarked'], units: UnitSystem): Html {
  if (remarked.length === 0)
    return html`<h3>Cylinders to look at</h3><p>None: nothing is beyond what scales explain. Losses of under 0.2 kg mostly go unseen.</p>`;
  const left = remarked.length - mostCylinders;
  return html`<details><summary>${countText(remarked.length, 'cylinder')} to look at</summary>
<ul class="plain-list">${remarked
    .slice(0, mostCylinders)
    .map(
      ({ cylinderId, refrigerant, remarks }) =>
        html`<li><strong>${cylinderId}</strong>${refrigerant !== null && ` (${refrigerant})`}: ${remarks.map((remark) => cylinderRemarkText(remark, units)).join(' ')}</li>`,
    )}</ul>${left > 0 && html`<p class="quiet">${groupedCount(left)} more: <code>dryhold accounts --json</code></p>`}</details>`;
}

function callbackTable({ callbackCosts, warrantyDays }: OwnerData['accounts'], units: UnitSystem): Html | null {
  if (callbackCosts.length === 0) return null;
  return html`<h3>What callbacks cost</h3>${figureTable({
    caption: `Within warranty: up to ${warrantyDays} days after the work that they trace to (common practice, no source)`,
    heads: ['commissioning?', 'callbacks', 'cost', 'within warranty', 'cost', 'refrigerant added'],
    rows: callbackCosts.map((line) => [
      causeWords[line.cause],
      groupedCount(line.callbacks),
      moneyText(line.costed === 0 ? null : line.cost),
      groupedCount(line.inWarranty),
      moneyText(line.costed === 0 ? null : line.warrantyCost),
      bookedMassText(line.refrigerantKg, units),
    ]),
  })}`;
}
