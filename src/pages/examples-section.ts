import type { UnitSystem } from '../units/display.ts';
import type { CoachTopic } from './coach-data.ts';
import { type Html, html } from './html.ts';
import type { PageCharts } from './page-charts.ts';
import { pairFigures } from './pair-figures.ts';
import { unitText } from './standing-out-text.ts';
import type { TrainerData } from './trainer-data.ts';

/** So many skills are shown by an example. */
const most = 3;

/** Recordings of jobs on which something was found beside like ones without it, of one person or crew for each skill. */
export async function examplesSection({ sheets }: TrainerData, units: UnitSystem, charts: PageCharts): Promise<Html> {
  const seen = new Set<string>();
  const figures: Html[] = [];
  for (const { report } of sheets)
    for (const { skill, sureness, pair } of report.topics) {
      if (figures.length === most || pair === null || seen.has(skill.id) || !isWorthShowing(sureness)) continue;
      const drawn = await pairFigures(pair, report.who, units, charts);
      if (drawn === false) continue;
      seen.add(skill.id);
      figures.push(html`<h3>${skill.title}: ${unitText(report.who)}</h3>${drawn}`);
      // One of each is enough: whose they are has a sheet with the others.
      break;
    }
  return html`<section aria-labelledby="examples"><h2 id="examples">Side by side: a job that shows it, and one that does not</h2>
${figures.length === 0 ? html`<p>No recordings are there to be laid side by side.</p>` : html`<p class="quiet">Recordings of single jobs; the filters do not act on them. Each coaching sheet has its own.</p>${figures}`}
</section>`;
}

const isWorthShowing = (sureness: CoachTopic['sureness']): boolean => sureness !== 'may-be-chance';
