import { pageColours } from '../charts/chart-colours.ts';
import { flaggedByMonth } from '../charts/flagged-by-month.ts';
import { monthText } from './day-text.ts';
import { type Html, html } from './html.ts';
import { namedId } from './named-id.ts';
import type { PageCharts } from './page-charts.ts';
import type { ServiceManagerData } from './service-manager-data.ts';
import { countText, shareText } from './share-text.ts';
import { timesBetween } from './times-between.ts';

/** So many crews have a chart and a column. */
const mostCrews = 12;
const heightPx = 210;

interface Counted {
  readonly judged: number;
  readonly flagged: number;
}

/** Whether the share of flagged jobs moves, per crew: one small chart each, and a table with the same figures. */
export async function monthlySection({ cells }: Pick<ServiceManagerData, 'cells'>, charts: PageCharts): Promise<Html> {
  const dated = cells.rows.filter(({ month, judged }) => month !== '' && judged > 0);
  if (dated.length === 0) {
    return html`<section aria-labelledby="months"><h2 id="months">Month by month</h2>
<p>No job of the period could be judged, so there is nothing to show by month.</p></section>`;
  }
  const months = timesBetween(
    dated.map(({ month }) => month),
    cells.grain,
  );
  const byCrew = [...Map.groupBy(dated, ({ crew }) => crew)]
    .map(([crew, rows]) => ({ crew, rows, all: counted(rows) }))
    .filter(({ crew }) => crew !== '')
    .sort((a, b) => b.all.judged - a.all.judged || a.crew.localeCompare(b.crew, 'en', { numeric: true }));
  const crews = byCrew
    .slice(0, mostCrews)
    .sort((a, b) => a.crew.localeCompare(b.crew, 'en', { numeric: true }))
    .map(({ crew, rows, all }) => ({ crew, all, months: Map.groupBy(rows, ({ month }) => month) }));
  const everyone = { all: counted(dated), months: Map.groupBy(dated, ({ month }) => month) };
  const figures = [
    await figure({ months, crew: undefined, all: everyone.all }, charts),
    ...(crews.length > 1 ? await eachFigure(crews, months, charts) : []),
  ];
  const each = { month: 'month', quarter: 'quarter', year: 'year' }[cells.grain];
  const label = `Flagged of judged jobs by ${each} and crew`;
  return html`<section aria-labelledby="months">
<h2 id="months">Which share of each crew’s judged jobs is flagged, ${each} by ${each}?</h2>
<p class="quiet">Dot: share of judged jobs with a fail or suspect finding. Bar: its 95% interval; where bars overlap widely, no change is shown.
The number under a ${each} is how many jobs could be judged.${crews.length > 1 && ' Dashed: all crews together, as the filters choose. Figures beside a name are of the whole period.'}${byCrew.length > crews.length && ` ${crews.length} of ${countText(cells.crews, 'crew')} are shown, those with the most judged jobs.`}</p>
<div class="multiples">${figures}</div>
<details><summary>The same figures as a table, all jobs</summary>
<div class="scroll" tabindex="0" role="region" aria-label="${label}">
<table><caption>Flagged of judged jobs (share, 95% interval)</caption>
<thead><tr><th scope="col">${each}</th><th scope="col">all</th>${crews.map(({ crew }) => html`<th scope="col">${namedId('crew', crew)}</th>`)}</tr></thead>
<tbody>${months.map((month) => html`<tr><th scope="row">${monthText(month)}</th>${[everyone, ...crews].map((one) => html`<td>${shareOf(counted(one.months.get(month) ?? []))}</td>`)}</tr>`)}</tbody></table></div></details>
</section>`;
}

async function eachFigure(
  crews: readonly { readonly crew: string; readonly all: Counted }[],
  months: readonly string[],
  charts: PageCharts,
): Promise<Html[]> {
  const figures: Html[] = [];
  for (const { crew, all } of crews) figures.push(await figure({ months, crew, all }, charts));
  return figures;
}

async function figure(
  { months, crew, all }: { months: readonly string[]; crew: string | undefined; all: Counted },
  charts: PageCharts,
): Promise<Html> {
  const name = crew === undefined ? 'All crews' : namedId('Crew', crew);
  const chart = flaggedByMonth({ months, ...(crew === undefined ? {} : { crew }), colours: pageColours });
  const description = `${name}: share of judged jobs flagged over time, with 95% interval. Over the period ${shareOf(all)}.`;
  return charts.figure({
    name: 'flagged-by-month',
    subject: 'Share of judged jobs flagged',
    title: name,
    note: shareOf(all),
    noteAlone: `Dot: share with a fail or suspect finding; bar: its 95% interval; below: jobs that could be judged.${crew === undefined ? '' : ' Dashed: all crews together.'}`,
    chart,
    description,
    figuresAt: 'The table below has the figures.',
    heightPx,
  });
}

const shareOf = ({ flagged, judged }: Counted): string => shareText(flagged, judged);

function counted(rows: readonly Counted[]): Counted {
  return rows.reduce((sum, { judged, flagged }) => ({ judged: sum.judged + judged, flagged: sum.flagged + flagged }), {
    judged: 0,
    flagged: 0,
  });
}
