import { pageColours } from '../charts/chart-colours.ts';
import { flaggedByMonth, type JobCell } from '../charts/flagged-by-month.ts';
import { monthText } from './day-text.ts';
import { type Html, html } from './html.ts';
import { namedId } from './named-id.ts';
import type { PageCharts } from './page-charts.ts';
import type { ServiceManagerData } from './service-manager-data.ts';
import { countText, shareText } from './share-text.ts';

type Monthly = ServiceManagerData['monthly'];

/** Whether the share of flagged jobs moves, per crew: one small chart each, and a table with the same figures. */
export async function monthlySection(monthly: Monthly, charts: PageCharts): Promise<Html> {
  if (monthly.length === 0) {
    return html`<section aria-labelledby="months"><h2 id="months">Month by month</h2>
<p>No job of the period could be judged, so there is nothing to show by month.</p></section>`;
  }
  const months = monthsBetween(monthly.map(({ month }) => month));
  const crewIds = [...new Set(monthly.map(({ crewId }) => crewId))].toSorted((a, b) =>
    a.localeCompare(b, 'en', { numeric: true }),
  );
  const everyone = months.map((month) => total(month, monthly));
  const countsOf = (crewId: string) => {
    const rows = monthly.filter((row) => row.crewId === crewId);
    return months.map((month) => total(month, rows));
  };
  const cells = monthly.map(
    ({ crewId, ...counts }): JobCell => ({ ...counts, crew: crewId, technician: '', refrigerant: '' }),
  );
  const figures: Html[] = [];
  for (const crewId of crewIds) {
    const counts = countsOf(crewId);
    const all = shareText(sum(counts, 'flagged'), sum(counts, 'judged'));
    const range = rangeText(counts.map((count) => count.judged));
    const chart = {
      ...flaggedByMonth({ months, ...(crewIds.length > 1 && { crew: crewId }), colours: pageColours }),
      data: { name: 'job-cells', values: cells },
    };
    const description = `${namedId('Crew', crewId)}: share of judged jobs flagged per month, with 95% interval. Over the period ${all}. The table below has the figures.`;
    figures.push(
      html`<figure><figcaption>${namedId('Crew', crewId)} <span class="quiet">${all}; ${range}</span></figcaption>${await charts.add(chart, description, 210)}</figure>`,
    );
  }
  const crews = crewIds.map((crewId) => ({ crewId, counts: countsOf(crewId) }));
  return html`<section aria-labelledby="months">
<h2 id="months">Which share of each crew’s judged jobs is flagged, month by month?</h2>
<p class="quiet">Dot: share of judged jobs with a fail or suspect finding. Bar: its 95% interval; where bars overlap widely, no change is shown.
The number under a month is how many jobs could be judged.${crewIds.length > 1 && ' Dashed: all crews together.'}</p>
<div class="multiples">${figures}</div>
<details><summary>The same figures as a table</summary>
<div class="scroll" tabindex="0" role="region" aria-label="Flagged of judged jobs by month and crew">
<table><caption>Flagged of judged jobs (share, 95% interval)</caption>
<thead><tr><th scope="col">month</th>${crews.map(({ crewId }) => html`<th scope="col">${namedId('crew', crewId)}</th>`)}</tr></thead>
<tbody>${months.map((month, index) => html`<tr><th scope="row">${monthText(month)}</th>${crews.map(({ counts }) => html`<td>${shareText(counts[index]?.flagged ?? 0, counts[index]?.judged ?? 0)}</td>`)}</tr>`)}</tbody></table></div></details>
<p class="quiet">${countText(sum(everyone, 'judged'), 'judged job')} in ${countText(months.length, 'month')}, ${countText(crewIds.length, 'crew')}.</p>
</section>`;
}

function total(month: string, rows: Monthly): Pick<JobCell, 'month' | 'judged' | 'flagged'> {
  const ofMonth = rows.filter((row) => row.month === month);
  return { month, judged: sum(ofMonth, 'judged'), flagged: sum(ofMonth, 'flagged') };
}

const sum = <Key extends string>(rows: readonly Record<Key, number>[], key: Key) =>
  rows.reduce((all, row) => all + row[key], 0);

/** Every month from the first to the last, those without rows too. */
function monthsBetween(months: readonly string[]): string[] {
  const numbers = months.map((month) => 12 * Number(month.slice(0, 4)) + Number(month.slice(5, 7)) - 1);
  const first = Math.min(...numbers);
  return Array.from({ length: Math.max(...numbers) - first + 1 }, (_, index) => {
    const number = first + index;
    return `${String(Math.floor(number / 12)).padStart(4, '0')}-${String((number % 12) + 1).padStart(2, '0')}`;
  });
}

/** From the fewest to the most judged jobs of a month with any. */
function rangeText(judged: readonly number[]): string {
  const some = judged.filter((count) => count > 0);
  if (some.length === 0) return 'none judged';
  const [fewest, most] = [Math.min(...some), Math.max(...some)];
  return `${fewest === most ? fewest : `${fewest} to ${most}`} judged a month`;
}
