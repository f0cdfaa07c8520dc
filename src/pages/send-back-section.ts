import { jobLink } from './job-link.ts';
import { jobSummary } from './job-summary.ts';
import { type Html, html } from './html.ts';
import { leadSentences } from './lead-sentences.ts';
import { namedId } from './named-id.ts';
import { outcomeTag } from './outcome-tag.ts';
import { bringText } from './revisit-text.ts';
import type { SendBack } from './send-back.ts';
import type { ServiceManagerData } from './service-manager-data.ts';
import { countText, fineShareText } from './share-text.ts';

/** So many are listed. */
export const mostSentBack = 12;
/** A reason says so much of a finding; the job's page says it all. */
const whyLength = 200;

/** Whom to send back where, why, and what to bring. */
export function sendBackSection({
  sendBack,
  sendBackOf,
  jobPages: pages,
}: Pick<ServiceManagerData, 'sendBack' | 'sendBackOf' | 'jobPages'>): Html {
  const more = sendBackOf - mostSentBack;
  const unnamed = sendBackOf - sendBack.length;
  return html`<section aria-labelledby="first">
<h2 id="first">Whom to send back first</h2>
${sendBack.length === 0 && html`<p>Nobody: no open job of the last week failed a test of its system, and none stands out on the watch list. Jobs that could not be judged are counted below.</p>`}
${
  sendBack.length > 0 &&
  html`<p>Open jobs, the most pressing first: what a test found wrong with the system, then what is likeliest to call back, then work that failed otherwise. Ring before you go; a licensed technician decides on site.</p>
<ol class="plain todo">${sendBack.slice(0, mostSentBack).map((entry) => sendBackItem(entry, pages))}</ol>
${
  more > 0 &&
  html`<p class="quiet">${countText(more, 'more job asks', 'more jobs ask')} for a visit.</p><details><summary>${unnamed > 0 ? `${countText(more - unnamed, 'of them', 'of them')}, a line each` : 'The others, a line each'}</summary>
<ul class="notes">${sendBack.slice(mostSentBack).map((entry) => restItem(entry, pages))}</ul></details>`
}`
}
</section>`;
}

/** One of those beyond the list, in a line. */
function restItem({ job, visits }: SendBack, pages: ReadonlySet<string>): Html {
  const what = visits.length === 0 ? '' : `: ${visits.map(({ title }) => title).join('; ')}`;
  return html`<li>${jobLink(job.jobId, pages)}, ${placeText(job).replace(/^[A-Z]/, (letter) => letter.toLowerCase())}${what} <span class="quiet">${doneText(job)}</span></li>`;
}

/** One of the list. */
export function sendBackItem(entry: SendBack, pages: ReadonlySet<string>): Html {
  const { job, outcome } = entry;
  const visit = visitText(entry);
  return html`<li>
<div>${outcome === 'fail' ? outcomeTag('fail') : outcomeTag('suspect', 'likely')}</div>
<div><h3>${placeText(job)}</h3>
${whyText(entry)}
${visit}
<p class="quiet">${jobLink(job.jobId, pages)} · ${doneText(job)}${moreText(entry)}</p></div></li>
`;
}

/** When it was done and by whom: not who is sent. */
export function doneText(job: SendBack['job']): string {
  return `done ${jobSummary({ ...job, technician: `by ${job.technician}`, systemId: null, siteId: null })}`;
}

/** How many findings more than are told; false where none. */
export function moreText({ moreFindings }: SendBack): Html | false {
  return moreFindings > 0 && html` · <strong>${countText(moreFindings, 'more finding')}</strong>`;
}

/** Whom to ring: the site, else the system, else the job. */
export function placeText({ siteId, systemId, jobId }: SendBack['job']): string {
  const site = siteId === null ? null : namedId('site', siteId);
  const system = systemId === null ? null : namedId('system', systemId);
  const [first, ...rest] = [site, system].filter((part) => part !== null);
  if (first === undefined) return `The site of ${namedId('job', jobId)}`;
  return [`${first.slice(0, 1).toUpperCase()}${first.slice(1)}`, ...rest].join(', ');
}

/** What speaks for a visit: what was asked and found, and how likely a callback is. */
export function whyText(entry: SendBack): Html {
  const watched = watchText(entry);
  return html`${entry.why.map(({ question, text }) => html`<p><strong>${question}</strong> ${leadSentences(text, whyLength)}</p>`)}${entry.contradiction !== '' && html`<p>${entry.contradiction}</p>`}${watched !== '' && html`<p>${watched}</p>`}`;
}

/** What to do there and what to bring; false where nothing is known of it. */
export function visitText({ visits }: SendBack): Html | false {
  if (visits.length === 0) return false;
  return html`<p><strong>On site:</strong> ${visits.map(({ title }) => title).join('; ')}. <strong>Bring:</strong> ${bringText(visits)}</p>`;
}

function watchText({ risk, times }: SendBack): string {
  if (risk === null || times === null) return '';
  return `By what came of jobs like it, it calls back within 90 days in ${fineShareText(risk.risk)} of cases (${fineShareText(risk.low).replace('%', '')}–${fineShareText(risk.high)}), ${times.toFixed(times < 9.95 ? 1 : 0)} times as often as any job of its age.`;
}
