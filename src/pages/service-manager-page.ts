import { callbacksSection } from './callbacks-section.ts';
import { cautions } from './cautions.ts';
import { checksSection } from './checks-section.ts';
import { periodText } from './day-text.ts';
import { filterBar } from './filter-bar.ts';
import { type Html, html } from './html.ts';
import { chartChoices } from './chart-choices.ts';
import { marginsSection } from './margins-section.ts';
import { monthlySection } from './monthly-section.ts';
import type { PageCharts } from './page-charts.ts';
import type { PageContent, Reader } from './page-content.ts';
import { peopleScores } from './people-scores.ts';
import { placeLinks } from './report-places.ts';
import { sendBackSection } from './send-back-section.ts';
import type { ServiceManagerData } from './service-manager-data.ts';
import { countText } from './share-text.ts';
import { techniciansSection } from './technicians-section.ts';
import { flaggedSection } from './flagged-section.ts';
import { weekSection } from './week-section.ts';
import type { InUnits } from '../units/in-units.ts';
import type { UnitSystem } from '../units/display.ts';

/**
 * The service manager's page: whom to send back, what the last week came to, callbacks beside what commissioning had shown, and what the
 * checks found over the whole period.
 */
export function serviceManagerPage(data: InUnits<ServiceManagerData>, reader: Reader): PageContent {
  const { period } = data(reader.units);
  const days = periodText(period);
  return {
    title: `Service manager’s page, ${days}`,
    description: `Whom to send back, callbacks, and findings of all checks, ${days}`,
    reader,
    places: placeLinks('service-manager'),
    body: (units, charts) => body(data(units), days, units, charts),
  };
}

async function body(data: ServiceManagerData, days: string, units: UnitSystem, charts: PageCharts): Promise<Html> {
  charts.addTable('job-cells', data.cells.rows);
  return html`<div class="page">
<header>
<h1>Whom to send back, and what the checks found</h1>
<p class="lead">For the service manager · ${days} · ${countText(data.jobs, 'job')} · judged by the policy “${data.policyTitle}” (${data.policyId})</p>
<nav class="nav" aria-label="On this page"><ul>
<li><a href="#first">Send back</a></li><li><a href="#week">Last week</a></li><li><a href="#flagged">Flagged jobs</a></li><li><a href="#callbacks">Callbacks</a></li><li><a href="#months">By month</a></li><li><a href="#technicians">Technicians</a></li><li><a href="#margins">Limits</a></li><li><a href="#checks">Checks</a></li><li><a href="#notes">Notes</a></li><li><a href="#cautions">Cautions</a></li>
</ul></nav>
</header>
<main>
${sendBackSection(data)}
${weekSection(data, units)}
${flaggedSection(data)}
<noscript><p>The charts need scripts. The tables below them hold the same figures.</p></noscript>
${filterBar({ ...chartChoices(data.cells, 'who need coaching most and who have the most jobs'), counted: { table: 'job-cells', field: 'jobs', noun: 'jobs' } })}
${await callbacksSection(data, charts)}
${await monthlySection(data, charts)}
${await techniciansSection(data, charts)}
${await marginsSection(data, charts)}
${checksSection(data)}
${notes(data.notes)}
${peopleScores('all jobs')}
${cautions}
</main>
</div>`;
}

function notes(lines: readonly string[]): Html {
  return html`<section aria-labelledby="notes"><h2 id="notes">Notes on the data</h2>
${lines.length === 0 ? html`<p>Nothing to note.</p>` : html`<ul class="notes">${lines.map((line) => html`<li>${line}</li>`)}</ul>`}
</section>`;
}
