import { type Html, html } from './html.ts';
import { namedId } from './named-id.ts';
import { pageFileName } from './page-file-name.ts';
import { jobsFolder } from './report-places.ts';

/**
 * A job as a link to its page, where it has one.
 *
 * @param pages jobs that have a page of their own
 * @param up from the page that the link stands on to the start page, such as `../`
 */
export function jobLink(jobId: string, pages: ReadonlySet<string>, up = ''): Html {
  const text = namedId('Job', jobId);
  if (!pages.has(jobId)) return html`<span class="job">${text}</span>`;
  return html`<a class="job" href="${up}${jobsFolder}/${pageFileName(jobId)}" data-page>${text}</a>`;
}
