import { vintageText } from '../accounts/gwp.ts';
import type { InUnits } from '../units/in-units.ts';
import { accountCautions } from './account-cautions.ts';
import { apartText } from './apart-text.ts';
import { balanceSection } from './balance-section.ts';
import { dayText } from './day-text.ts';
import { dueSection } from './due-section.ts';
import { chartChoices } from './chart-choices.ts';
import { filterBar } from './filter-bar.ts';
import { type Html, html } from './html.ts';
import { leakSection } from './leak-section.ts';
import { needSection } from './need-section.ts';
import type { OwnerData } from './owner-data.ts';
import { ownerFirst } from './owner-first.ts';
import type { PageCharts } from './page-charts.ts';
import type { PageContent, Reader } from './page-content.ts';
import { placeLinks } from './report-places.ts';
import { ruleSection } from './rule-section.ts';
import { countText } from './share-text.ts';

/**
 * The owner's page: where the refrigerant went, which systems leak, what is due, and what it costs.
 */
export function ownerPage(data: InUnits<OwnerData>, reader: Reader): PageContent {
  const { accounts, leaks } = data(reader.units);
  const hasAny = accounts.cylinders > 0 || leaks.appliances > 0;
  const period = hasAny ? `${dayText(accounts.period.from)} to ${dayText(accounts.period.to)}` : 'nothing on record';
  return {
    title: `Owner’s page, ${period}`,
    description: `Refrigerant accounts, leak rates and deadlines, ${period}`,
    reader,
    places: placeLinks('owner'),
    body: (units, charts) => body(data(units), period, charts),
  };
}

async function body(data: OwnerData, period: string, charts: PageCharts): Promise<Html> {
  const { accounts, leaks, units } = data;
  const unit = units === 'si' ? 'kg' : 'lb';
  return html`<div class="page">
<header>
<h1>Where the refrigerant goes</h1>
<p class="lead">For the owner · ${period} · ${countText(accounts.cylinders, 'cylinder')}, ${countText(leaks.appliances, 'appliance')} · masses in ${unit}, CO₂e by the values of ${vintageText[accounts.vintage]}</p>
<nav class="nav" aria-label="On this page"><ul>
<li><a href="#first">What to do first</a></li><li><a href="#balances">Balances</a></li><li><a href="#leaks">Leaks</a></li><li><a href="#due">Due</a></li><li><a href="#needs">Needed and charged</a></li><li><a href="#rules">Rules</a></li><li><a href="#apart">Kept apart</a></li><li><a href="#cautions">Cautions</a></li>
</ul></nav>
</header>
<main>
${ownerFirst(data)}
<noscript><p>The charts need scripts. The tables below them hold the same figures.</p></noscript>
${filterBar(chartChoices(data.cells, 'those with the most jobs'))}
${await balanceSection(data, charts)}
${await leakSection(data, charts)}
${dueSection(data)}
${needSection(data)}
${ruleSection(data)}
${apartSection(data)}
${accountCautions}
</main>
</div>`;
}

function apartSection({ accounts, leaks, units }: OwnerData): Html {
  const apart = [...accounts.apart, ...leaks.apart];
  return html`<section aria-labelledby="apart"><h2 id="apart">What cannot be accounted, and why</h2>
${apart.length === 0 ? html`<p>Nothing had to be kept apart.</p>` : html`<ul class="notes">${apart.map((group) => html`<li>${apartText(group, units)}</li>`)}</ul>`}
<p class="quiet">Kept apart, never guessed. Complete the record and ingest it again.</p></section>`;
}
