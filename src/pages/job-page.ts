import type { UnitSystem } from '../units/display.ts';
import { cautions } from './cautions.ts';
import { evidenceSection } from './evidence-section.ts';
import { html } from './html.ts';
import { namedId } from './named-id.ts';
import { PageCharts } from './page-charts.ts';
import { pageShell } from './page-shell.ts';
import type { JobEvidence } from './service-manager-data.ts';

/**
 * One job's page: what was found, and the recording that shows it.
 *
 * @returns one HTML document that works offline
 */
export async function renderJobPage(
  job: JobEvidence & { policyId: string; policyTitle: string },
  units: UnitSystem,
): Promise<string> {
  const charts = new PageCharts();
  const body = html`<div class="page"><header><h1>What was found on ${namedId('job', job.jobId)}</h1>
<p class="lead">Judged by the policy “${job.policyTitle}” (${job.policyId})</p></header>
<main>${await evidenceSection(job, units, charts, 'alone')}${cautions}</main></div>`;
  return pageShell({
    title: `${namedId('Job', job.jobId)}`,
    description: `Findings and recording of ${namedId('job', job.jobId)}`,
    body,
    charts,
  });
}
