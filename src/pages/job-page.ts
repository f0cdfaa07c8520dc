import type { InUnits } from '../units/in-units.ts';
import { cautions } from './cautions.ts';
import { evidenceSections } from './evidence-sections.ts';
import { html } from './html.ts';
import { jobSummary } from './job-summary.ts';
import { namedId } from './named-id.ts';
import type { PageContent, Reader } from './page-content.ts';
import { placeLinks } from './report-places.ts';
import type { JobEvidence } from './job-evidence-data.ts';

/** A job and the policy that judged it. */
export interface JudgedJob extends JobEvidence {
  readonly policyId: string;
  readonly policyTitle: string;
}

/**
 * One job's page: what was found, and the recordings that show it.
 *
 * @param place whether it is one of a report's pages, linked with the others, or stands alone
 */
export function jobPage(job: InUnits<JudgedJob>, reader: Reader, place: 'in-report' | 'alone' = 'alone'): PageContent {
  const { jobId, policyId, policyTitle } = job(reader.units);
  return {
    title: namedId('Job', jobId),
    description: `Findings and recording of ${namedId('job', jobId)}`,
    reader,
    places: place === 'in-report' ? placeLinks(null) : undefined,
    body: async (units, charts) => html`<div class="page"><header><h1>What was found on ${namedId('job', jobId)}</h1>
<p class="lead">${jobSummary(job(units))} · judged by the policy “${policyTitle}” (${policyId})</p></header>
<main>${await evidenceSections(job(units), units, charts)}${cautions}</main></div>`,
  };
}
