import { carriedJudgement, judgedRowPx } from '../charts/carried-judgement.ts';
import { pageColours } from '../charts/chart-colours.ts';
import { type Html, html } from './html.ts';
import type { PageCharts } from './page-charts.ts';
import { groupedCount, percentText } from './share-text.ts';
import { firstSkill, skillTitle } from './skill-section.ts';
import type { TrainerData } from './trainer-data.ts';

/** How many jobs each one's logs can carry a judgement on, by skill. */
export async function judgedSection(data: TrainerData, charts: PageCharts): Promise<Html> {
  const { technicians, fleet } = data;
  if (technicians.length === 0) return html``;
  const skills = fleet.rates.filter(({ skill }) => !skill.counts.startsWith('no '));
  const label = 'Jobs that could be judged, of all, by technician and skill';
  const byWho = skills.map(
    (one) =>
      new Map(one.groupings.find(({ kind }) => kind === 'technician')?.units.map((unit) => [unit.unit.id, unit])),
  );
  return html`<section aria-labelledby="judged">
<h2 id="judged">On how many jobs can each one’s logs carry a judgement?</h2>
<p>What was not logged, or not well enough, is judged neither good nor bad; whoever logs little can neither stand out nor be cleared. By the skill chosen above.</p>
${await charts.figure({
  name: 'carried-judgement',
  subject: skillTitle(data),
  title: 'Share of jobs that could be judged',
  note: 'right: judged of all',
  chart: carriedJudgement({
    skill: firstSkill(data),
    technicians: technicians.map(({ label: name }) => name),
    colours: pageColours,
  }),
  description: 'Share of jobs that could be judged in the chosen skill, by technician.',
  figuresAt: 'The table below has the figures of all skills.',
  heightPx: technicians.length * judgedRowPx + 66,
  isNarrow: true,
})}
<details><summary>All skills as a table</summary>
<div class="scroll figures" tabindex="0" role="region" aria-label="${label}">
<table><caption>${label}</caption>
<thead><tr><th scope="col">technician</th>${skills.map(({ skill }) => html`<th scope="col">${skill.title}</th>`)}</tr></thead>
<tbody>${technicians.map(
    ({ label: name, id }) =>
      html`<tr><th scope="row">${name}</th>${byWho.map((units) => {
        const unit = units.get(id);
        if (unit === undefined) return html`<td>–</td>`;
        const all = unit.jobs + unit.notEvaluated + unit.missing;
        return html`<td>${groupedCount(unit.jobs)} of ${groupedCount(all)} (${percentText(all === 0 ? null : unit.jobs / all)})</td>`;
      })}</tr>`,
  )}</tbody></table></div></details>
</section>`;
}
