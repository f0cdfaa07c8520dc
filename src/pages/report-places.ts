import { type Html, html } from './html.ts';

/** The pages of a report that all others link to: their files beside the start page, and what they are called. */
export const reportPlaces = {
  start: { file: 'index.html', title: 'Start' },
  'service-manager': { file: 'service-manager.html', title: 'Service manager' },
  trainer: { file: 'trainer.html', title: 'Trainer' },
  owner: { file: 'owner.html', title: 'Owner' },
} as const;

export type ReportPlace = keyof typeof reportPlaces;

/** Folders of the pages that are many. */
export const sheetsFolder = 'sheets';
export const jobsFolder = 'jobs';
/** Folders of what charts become. */
export const chartsFolder = 'charts';
export const specsFolder = 'specs';

/**
 * Links to the pages of a report.
 *
 * @param current the page they stand on; null on one in a folder of its own
 */
export function placeLinks(current: ReportPlace | null): Html {
  const up = current === null ? '../' : '';
  return html`<ul class="places">${Object.entries(reportPlaces).map(
    ([place, { file, title }]) =>
      html`<li><a href="${up}${file}" data-page${place === current && html` aria-current="page"`}>${title}</a></li>`,
  )}</ul>`;
}
