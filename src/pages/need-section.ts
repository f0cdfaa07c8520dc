import { bookedMassText, withoutUnit } from '../units/display.ts';
import type { NeedLine } from './accounts-data.ts';
import { co2eFigure } from './co2e-text.ts';
import { monthText } from './day-text.ts';
import { figureTable } from './figure-table.ts';
import { type Html, html } from './html.ts';
import type { OwnerData } from './owner-data.ts';
import { countText, groupedCount, moneyText } from './share-text.ts';

/** What jobs put in beside what they needed, by person and month. */
export function needSection({ accounts: { needs }, units }: OwnerData): Html {
  if (needs === null)
    return html`<section aria-labelledby="needs"><h2 id="needs">Needed and charged</h2><p>Of no job both are known.</p></section>`;
  const { total, technicians, months } = needs;
  const unit = units === 'si' ? 'kg' : 'lb';
  const figure = (kg: number) => withoutUnit(bookedMassText(kg, units));
  const cells = (line: NeedLine, name: string) => [
    name,
    groupedCount(line.jobs),
    figure(line.wantedKg),
    figure(line.chargedKg),
    `${figure(line.overKg)} ± ${figure(line.halfWidthKg)}`,
    `${groupedCount(line.surelyOver)}: ${figure(line.surelyOverKg)}`,
    groupedCount(line.surelyUnder),
    moneyText(line.over.cost),
    co2eFigure(line.over.co2eT),
  ];
  const heads = [
    '',
    'jobs',
    'needed',
    'charged',
    'over (95%)',
    'jobs over (95%)',
    'under',
    'over, cost',
    'over, t CO₂e',
  ];
  return html`<section aria-labelledby="needs">
<h2 id="needs">Is more charged than is needed?</h2>
${figureTable({ caption: `By technician, the most over first [${unit}]`, heads, rows: technicians.map((line) => cells(line, line.name)), total: cells(total, 'all') })}
${total.unsure > 0 && html`<p class="quiet">${countText(total.unsure, 'job')} more, whose charge is known to no better than ${bookedMassText(0.5, units)}, are not added up.</p>`}
<details><summary>By month</summary>${figureTable({ caption: `By month [${unit}]`, heads, rows: months.map((line) => cells(line, monthText(line.name))) })}</details>
<p class="quiet">Jobs over: beyond the 95% interval; of jobs that put in just what they needed one in forty is, by chance. Which jobs, and why: <code>dryhold accounts</code>, <code>dryhold show JOB</code>. For coaching, together with the mix of their jobs; no measure of a person.</p>
</section>`;
}
