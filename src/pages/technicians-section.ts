import { pageColours } from '../charts/chart-colours.ts';
import { technicianRates, technicianRowPx } from '../charts/technician-rates.ts';
import { type Html, html } from './html.ts';
import type { PageCharts } from './page-charts.ts';
import type { ServiceManagerData, TechnicianCount } from './service-manager-data.ts';
import { countText, percentText } from './share-text.ts';

/** Technicians' shares with their intervals, by name, and what such shares cannot show. */
export async function techniciansSection(
  { technicians, cells }: Pick<ServiceManagerData, 'technicians' | 'cells'>,
  charts: PageCharts,
): Promise<Html> {
  if (technicians.length === 0) {
    return html`<section aria-labelledby="technicians"><h2 id="technicians">Technicians</h2>
<p>No job names a technician, so nothing can be said by technician.</p></section>`;
  }
  const byName = technicians.toSorted(
    (a, b) =>
      a.name.localeCompare(b.name, 'en', { numeric: true }) || a.technicianId.localeCompare(b.technicianId, 'en'),
  );
  // Of all jobs, as in the chart: whoever is shown is no sample of them.
  const judged = cells.rows.reduce((sum, row) => sum + row.judged, 0);
  const fleetShare = judged === 0 ? null : cells.rows.reduce((sum, row) => sum + row.flagged, 0) / judged;
  const areAll = cells.technicians <= byName.length;
  const chart = technicianRates({ technicians: byName.map(({ name }) => name), colours: pageColours });
  const description = `Share of judged jobs flagged per technician, with 95% interval, by name; over all ${percentText(fleetShare)}.`;
  return html`<section aria-labelledby="technicians">
<h2 id="technicians">Whose jobs are flagged more or less often than all, beyond chance?</h2>
<p>${comparison(byName, fleetShare, areAll)} Where an interval crosses the dashed line, these jobs show no difference from all.</p>
<p class="quiet">By name, not by rank. Right of each bar: flagged of judged jobs.${!areAll && ` ${byName.length} of ${countText(cells.technicians, 'technician')} are shown, who need coaching most and who have the most jobs.`}</p>
${await charts.figure({
  name: 'technician-rates',
  subject: 'By technician',
  title: 'Share of judged jobs flagged, with 95% interval',
  chart,
  description,
  figuresAt: 'The table below has the figures.',
  heightPx: byName.length * technicianRowPx + 66,
  isNarrow: true,
})}
<details><summary>The same figures as a table</summary>
<div class="scroll" tabindex="0" role="region" aria-label="Flagged of judged jobs by technician">
<table><thead><tr><th scope="col">technician</th><th scope="col">crew</th><th scope="col">judged</th><th scope="col">flagged</th><th scope="col">share</th><th scope="col">95% interval</th><th scope="col">not judged</th></tr></thead>
<tbody>${byName.map(row)}</tbody></table></div></details>
</section>`;
}

function row(technician: TechnicianCount): Html {
  const { judged, flagged, low, high } = technician;
  return html`<tr><th scope="row">${technician.name}</th><td>${technician.crewId ?? '–'}</td><td>${judged}</td><td>${flagged}</td><td>${percentText(judged === 0 ? null : flagged / judged)}</td><td>${judged === 0 ? '–' : `${Math.round(100 * low)}–${percentText(high)}`}</td><td>${technician.notJudged}</td></tr>`;
}

/** How many intervals lie clear of the common share; of all technicians, beside how many would by chance alone. */
function comparison(technicians: readonly TechnicianCount[], fleetShare: number | null, areAll: boolean): string {
  const judged = technicians.filter((row) => row.judged > 0);
  if (fleetShare === null || judged.length === 0) return 'No job of a named technician could be judged.';
  const clear = judged.filter(({ low, high }) => low > fleetShare || high < fleetShare).length;
  const byChance = 0.05 * judged.length;
  const chance = byChance < 1 ? 'fewer than one' : `about ${Math.round(byChance)}`;
  const found = clear === 0 ? 'None' : String(clear);
  const beside = areAll
    ? `if all worked alike, ${chance} would by chance`
    : 'who is shown was chosen for it, so that chance alone is no measure';
  return `${found} of ${countText(judged.length, 'interval')} ${clear === 1 ? 'lies' : 'lie'} clear of the share over all (${percentText(fleetShare)}); ${beside}.`;
}
