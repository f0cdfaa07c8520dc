import { calledBackByAge, lifeTableName } from '../charts/called-back-by-age.ts';
import { pageColours } from '../charts/chart-colours.ts';
import { stepDays } from '../fleet/callbacks/life-table-counts.ts';
import type { CallbackReport } from './callback-data.ts';
import {
  causeWords,
  groupsText,
  groupWords,
  logRankText,
  preventedText,
  summaryText,
  weighedText,
} from './callback-text.ts';
import { monthsEach } from './coarse-rows.ts';
import { dayText } from './day-text.ts';
import { figureTable } from './figure-table.ts';
import { type Html, html } from './html.ts';
import { jobLink } from './job-link.ts';
import type { PageCharts } from './page-charts.ts';
import type { ServiceManagerData } from './service-manager-data.ts';
import { fineShareText, groupedCount, moneyText } from './share-text.ts';
import { checkWords } from './standing-out-text.ts';

/** So many of the latest are listed. */
export const mostCallbacks = 15;
const heightPx = 290;

/** Callbacks with what commissioning had shown, and whether flagged jobs call back sooner than clean ones. */
export async function callbacksSection(data: ServiceManagerData, charts: PageCharts): Promise<Html> {
  const { callbacks } = data;
  if (callbacks.callbacks === 0)
    return html`<section aria-labelledby="callbacks"><h2 id="callbacks">Callbacks</h2><p>${summaryText(callbacks)[0]}</p></section>`;
  return html`<section aria-labelledby="callbacks">
<h2 id="callbacks">Callbacks, and what commissioning had shown</h2>
${summaryText(callbacks).map((text) => html`<p>${text}</p>`)}
${causeTable(callbacks)}
${latestTable(data)}
<h3>Do flagged jobs call back sooner than clean ones?</h3>
<p>${logRankText(callbacks)}</p>
${await survivalFigure(data, charts)}
${shareTable(callbacks)}
${[groupsText, weighedText(callbacks), preventedText(callbacks)].filter((text) => text !== '').map((text) => html`<p class="quiet">${text}</p>`)}
<p class="quiet">Whether a callback was the fault of the work nobody can read off a log: this lays side by side what was found on the job and what was found later.</p>
</section>`;
}

function causeTable({ causes }: CallbackReport): Html {
  return figureTable({
    caption:
      'What callbacks were about, by what was found, what was added, and what the customer said; cost in the shop’s currency',
    heads: ['commissioning?', 'callbacks', 'cost', 'days after, median'],
    rows: causes.map(({ cause, callbacks, cost, costed, medianDays }) => [
      causeWords[cause],
      groupedCount(callbacks),
      costed === 0 ? '–' : moneyText(cost),
      medianDays === null ? '–' : String(Math.round(medianDays)),
    ]),
  });
}

function latestTable({ callbacks, jobPages }: ServiceManagerData): Html {
  const shown = callbacks.entries.slice(0, mostCallbacks);
  const left = callbacks.entries.length - shown.length;
  const label = 'The latest callbacks, and what had been found on their jobs';
  return html`<div class="scroll figures" tabindex="0" role="region" aria-label="${label}">
<table><caption>${label}${left > 0 && ` (${groupedCount(shown.length)} of ${groupedCount(callbacks.entries.length)}; all: dryhold callbacks)`}</caption>
<thead><tr><th scope="col">reported</th><th scope="col" class="text">found, or said</th><th scope="col" class="text">commissioning?</th><th scope="col" class="text">job</th><th scope="col">days after</th><th scope="col" class="text">commissioning had shown</th></tr></thead>
<tbody>${shown.map(
    (entry) =>
      html`<tr><th scope="row">${dayText(entry.reportedAt)}</th><td class="text">${entry.causeFound ?? entry.reason ?? entry.cause.words}</td><td class="text">${causeWords[entry.cause.cause]}</td><td class="text">${entry.jobId === null ? '–' : jobLink(entry.jobId, jobPages)}${entry.technician !== null && ` ${entry.technician.name}`}</td><td>${entry.daysAfter ?? '–'}</td><td class="text">${entry.jobId === null ? 'traces to no job' : entry.findings.length === 0 ? 'nothing flagged' : entry.findings.map(checkWords).join(', ')}</td></tr>`,
  )}</tbody></table></div>`;
}

async function survivalFigure({ lifeTable, callbacks }: ServiceManagerData, charts: PageCharts): Promise<Html> {
  charts.addTable(lifeTableName, lifeTable.rows);
  const chart = calledBackByAge({
    groups: [groupWords.flagged, groupWords.clean, groupWords['not-judged']],
    stepDays,
    horizonDays: callbacks.horizonDays,
    monthsEach: monthsEach[lifeTable.grain],
    colours: pageColours,
  });
  const last = callbacks.free.groups.map(({ group, shares }) => {
    const { ageDays, share } = shares.at(-1) ?? { ageDays: 0, share: null };
    return `${groupWords[group]}: ${fineShareText(share)} by ${ageDays} days`;
  });
  const grain =
    lifeTable.grain === 'month' ? '' : ` Of a period, every ${lifeTable.grain} that is touched counts whole.`;
  return charts.figure({
    name: 'called-back-by-age',
    title: 'Share of jobs with a callback, by days since the job',
    note: `steps of ${stepDays} days, bars: 95% interval; not weighed for follow-up visits.`,
    noteOnPage: `As the filters choose; the table below is weighed.${grain}`,
    chart,
    description: `Share of jobs with a callback by days since the job. ${last.join('; ')}.`,
    figuresAt: 'The table below has the figures.',

    heightPx,
    key: [
      { mark: 'asked-solid', text: 'flagged' },
      { mark: 'accent-dashed', text: 'clean' },
      { mark: 'dotted', text: 'tests not judged' },
    ],
    isNarrow: true,
  });
}

function shareTable({ free }: CallbackReport): Html {
  const ages = free.groups[0]?.shares.map(({ ageDays }) => `by ${ageDays} days`) ?? [];
  return figureTable({
    caption: 'Share of all jobs with a callback (Kaplan and Meier, 95% interval)',
    heads: ['what was found', 'jobs', 'callbacks', ...ages],
    rows: free.groups.map(({ group, jobs, callbacks, shares }) => [
      groupWords[group],
      groupedCount(jobs),
      groupedCount(callbacks),
      ...shares.map(({ share, low, high }) =>
        share === null
          ? '–'
          : `${fineShareText(share)} (${fineShareText(low).replace('%', '')}–${fineShareText(high)})`,
      ),
    ]),
  });
}
