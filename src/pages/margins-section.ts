import { pageColours } from '../charts/chart-colours.ts';
import { limitMargins } from '../charts/limit-margins.ts';
import { type Html, html } from './html.ts';
import type { PageCharts } from './page-charts.ts';
import type { ServiceManagerData } from './service-manager-data.ts';
import { countText, groupedCount } from './share-text.ts';

const heightPx = 300;

/** How far from its own limit each job's rise ended: those over it, those near it, and whether that moves. */
export async function marginsSection({ limitPoints }: ServiceManagerData, charts: PageCharts): Promise<Html> {
  const { rows, of, flagged } = limitPoints;
  if (rows.length === 0)
    return html`<section aria-labelledby="margins"><h2 id="margins">How far from its own limit did each job end?</h2>
<p>No rise of the period could be held against a limit.</p></section>`;
  charts.addTable(
    'limit-points',
    rows.map(({ job: _, ...point }) => point),
  );
  const [over, near, passed] = [
    rows.filter(({ outcome }) => outcome === 'fail').length,
    rows.filter(({ outcome }) => outcome === 'suspect').length,
    rows.filter(({ outcome }) => outcome === 'pass').length,
  ];
  const shown =
    rows.length === of
      ? `${of === 1 ? 'The only job' : `All ${countText(of, 'job')}`} with a judged rise above 0 ${of === 1 ? 'is' : 'are'} shown.`
      : `${groupedCount(rows.length)} of ${countText(of, 'job')} with a judged rise above 0 are shown: ${groupedCount(over + near)} of the ${groupedCount(flagged)} over or near the limit, and ${groupedCount(passed)} of the ${groupedCount(of - flagged)} within it, drawn by lot; medians weigh them by that.`;
  const counts = `${groupedCount(over)} over, ${groupedCount(near)} over by less than the gauge’s accuracy, ${groupedCount(passed)} within`;
  return html`<section aria-labelledby="margins">
<h2 id="margins">How far from its own limit did each job end?</h2>
<p>The pressure of the isolated system, held against the limit that counts for that job: at 1 it stands on its limit, at 0.1 at a tenth of it. ${shown}</p>
${await charts.figure({
  name: 'limit-margins',
  title: 'Pressure ÷ own limit, job by job',
  note: 'logarithmic',
  chart: limitMargins({ colours: pageColours }),
  description: `Pressure of the isolated system over its own limit, by day of the job. Of those shown: ${counts}.`,
  figuresAt: 'The checks above have the counts of all.',
  heightPx,
  legend:
    'Dot: within. Triangle: over by less than the gauge’s accuracy. Square: over. Bar: median of the month. Beyond 0.01 and 100 a point stands at the edge.',
})}
</section>`;
}
