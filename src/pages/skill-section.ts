import { pageColours } from '../charts/chart-colours.ts';
import { foundOverExpected, foundOverExpectedRowPx } from '../charts/found-over-expected.ts';
import { skillFunnel } from '../charts/skill-funnel.ts';
import type { RatesReport } from './fleet-data.ts';
import { type Html, html } from './html.ts';
import type { PageCharts } from './page-charts.ts';
import { groupedCount, percentText } from './share-text.ts';
import type { TrainerData } from './trainer-data.ts';

const funnelHeightPx = 340;

/** The rows that the trainer's charts read by name. */
export function addSkillTables({ skillCells, funnelLimits }: TrainerData, charts: PageCharts): void {
  charts.addTable('skill-cells', skillCells.rows);
  charts.addTable('funnel-limits', funnelLimits);
}

/** The skill that the charts show at first: what the first sheet is about. */
export function firstSkill({ sheets, fleet }: TrainerData): string {
  return sheets[0]?.report.topics[0]?.skill.id ?? fleet.rates[0]?.skill.id ?? '';
}

/** Its name. */
export function skillTitle(data: TrainerData): string {
  const first = firstSkill(data);
  return data.fleet.rates.find(({ skill }) => skill.id === first)?.skill.title ?? '';
}

/** One skill by technician, as a funnel and as found over expected; all skills as a table. */
export async function skillSection(data: TrainerData, charts: PageCharts): Promise<Html> {
  const { technicians, fleet, everyone } = data;
  const skill = firstSkill(data);
  const title = skillTitle(data);
  if (technicians.length === 0)
    return html`<section aria-labelledby="skills"><h2 id="skills">Skills by technician</h2><p>No job names a technician, so nothing can be said by technician.</p></section>`;
  const figuresAt = 'The table below has the figures of all skills.';
  const left =
    everyone.technicians > technicians.length
      ? ` ${technicians.length} of ${groupedCount(everyone.technicians)} technicians are shown.`
      : '';
  return html`<section aria-labelledby="skills">
<h2 id="skills">Whose jobs show more than such jobs lead to expect?</h2>
<p>One skill at a time, chosen above. Expected: what anybody’s jobs of this kind show (refrigerant, kind of system and work, lines, season, weather, what tests and gauges could see). A finding may be laid to what people share, crew or gear; the coaching sheets say where that can be told.${left}</p>
<div class="pair even">
${await charts.figure({
  name: 'skill-funnel',
  subject: title,
  title: 'Found ÷ expected, by how much was expected',
  note: 'between the dashed curves lie 95 of 100 by chance, between the solid ones 998 of 1\u00a0000; a triangle lies outside; limits are those of all jobs’ mean chance',
  chart: skillFunnel({ skill, colours: pageColours }),
  description: `Funnel: found over expected by technician, with the limits of chance.`,
  figuresAt,
  heightPx: funnelHeightPx,
})}
${await charts.figure({
  name: 'found-over-expected',
  subject: title,
  title: 'Found ÷ expected, with 95% interval',
  note: 'logarithmic; by name, not by rank; as if counts were rare (Byar)',
  chart: foundOverExpected({
    skill,
    technicians: technicians.map(({ label: name }) => name),
    colours: pageColours,
  }),
  description: `Found over expected by technician, with its 95% interval.`,
  figuresAt,
  heightPx: technicians.length * foundOverExpectedRowPx + 66,
})}
</div>
${skillTable(fleet.rates, technicians)}
</section>`;
}

/** Found of judged, and times what is expected, of each technician in each skill. */
function skillTable(rates: readonly RatesReport[], technicians: TrainerData['technicians']): Html {
  const label = 'Found of judged jobs, and how many times what is expected of such jobs';
  const byWho = rates.map(
    (one) =>
      new Map(one.groupings.find(({ kind }) => kind === 'technician')?.units.map((unit) => [unit.unit.id, unit])),
  );
  return html`<details><summary>All skills as a table</summary>
<div class="scroll figures" tabindex="0" role="region" aria-label="${label}">
<table><caption>${label}; in brackets the 95% interval of the share</caption>
<thead><tr><th scope="col">technician</th>${rates.map(({ skill }) => html`<th scope="col">${skill.title}</th>`)}</tr></thead>
<tbody>${technicians.map(
    ({ label: name, id }) =>
      html`<tr><th scope="row">${name}</th>${byWho.map((units) => {
        const unit = units.get(id);
        if (unit === undefined || unit.jobs === 0) return html`<td>–</td>`;
        const times = unit.ratio === null ? '' : `, × ${unit.ratio.toFixed(1)}`;
        return html`<td>${groupedCount(unit.found)} of ${groupedCount(unit.jobs)}${times} <span class="quiet range">(${percentText(unit.low).replace('%', '')}–${percentText(unit.high)})</span></td>`;
      })}</tr>`,
  )}</tbody></table></div></details>`;
}
