import { cautions } from './cautions.ts';
import { checksSection } from './checks-section.ts';
import { dayText } from './day-text.ts';
import { evidenceSection } from './evidence-section.ts';
import { type Html, html } from './html.ts';
import { monthlySection } from './monthly-section.ts';
import { PageCharts } from './page-charts.ts';
import { pageShell } from './page-shell.ts';
import { peopleScores } from './people-scores.ts';
import type { ServiceManagerData } from './service-manager-data.ts';
import { countText } from './share-text.ts';
import { techniciansSection } from './technicians-section.ts';
import { toDoFirst } from './to-do-first.ts';

/**
 * The service manager's page: which of last week's jobs to look at, and what the checks found over the whole period.
 *
 * @returns one HTML document that works offline; equal data, equal bytes
 */
export async function renderServiceManagerPage(data: ServiceManagerData): Promise<string> {
  const charts = new PageCharts();
  const period = `${dayText(data.period.from)} to ${dayText(data.period.to)}`;
  const monthly = await monthlySection(data.monthly, charts);
  const technicians = await techniciansSection(data.technicians, charts);
  const evidence: Html[] = [];
  for (const job of data.lookAt) evidence.push(await evidenceSection(job, data.units, charts));
  const body = html`<div class="page">
<header>
<h1>Jobs to look at, and what the checks found</h1>
<p class="lead">For the service manager · ${period} · ${countText(data.jobs, 'job')} · judged by the policy “${data.policyTitle}” (${data.policyId})</p>
<nav class="nav" aria-label="On this page"><ul>
<li><a href="#first">What to do first</a></li><li><a href="#checks">Checks</a></li><li><a href="#months">By month</a></li><li><a href="#technicians">Technicians</a></li>${evidence.length > 0 && html`<li><a href="#evidence">Evidence</a></li>`}<li><a href="#notes">Notes</a></li><li><a href="#cautions">Cautions</a></li><li><a href="owner.html">Owner’s page</a></li>
</ul></nav>
</header>
<main>
${toDoFirst(data)}
${checksSection(data)}
<noscript><p>The charts need scripts. The tables below them hold the same figures.</p></noscript>
${monthly}
${technicians}
${evidence.length > 0 && html`<section aria-labelledby="evidence"><h2 id="evidence">The evidence, job by job</h2>${evidence}</section>`}
${notes(data.notes)}
${peopleScores}
${cautions}
</main>
</div>`;
  const title = `Service manager’s page, ${period}`;
  return pageShell({ title, description: `Jobs to look at and findings of all checks, ${period}`, body, charts });
}

function notes(lines: readonly string[]): Html {
  return html`<section aria-labelledby="notes"><h2 id="notes">Notes on the data</h2>
${lines.length === 0 ? html`<p>Nothing to note.</p>` : html`<ul class="notes">${lines.map((line) => html`<li>${line}</li>`)}</ul>`}
</section>`;
}
