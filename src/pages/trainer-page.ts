import type { UnitSystem } from '../units/display.ts';
import type { InUnits } from '../units/in-units.ts';
import { cautions } from './cautions.ts';
import { changeText, joinedChanges, surest, trainingText } from './change-text.ts';
import { periodText } from './day-text.ts';
import { examplesSection } from './examples-section.ts';
import { filterBar } from './filter-bar.ts';
import { type Html, html } from './html.ts';
import { chartChoices } from './chart-choices.ts';
import { judgedSection } from './judged-section.ts';
import type { PageCharts } from './page-charts.ts';
import type { PageContent, Reader } from './page-content.ts';
import { peopleScores } from './people-scores.ts';
import { placeLinks } from './report-places.ts';
import { countText } from './share-text.ts';
import { addSkillTables, firstSkill, skillSection } from './skill-section.ts';
import type { TrainerData } from './trainer-data.ts';
import { whoToSeeSection } from './who-to-see-section.ts';

/** Of more changes only so many are told, and of trainings the latest. */
const mostChanges = 12;
export const mostTrainings = 20;

/**
 * The trainer's page: whom to see about what, each skill as a funnel and as found beside expected, how much each one's logs can carry, what
 * came of trainings, and recordings to lay side by side.
 */
export function trainerPage(data: InUnits<TrainerData>, reader: Reader): PageContent {
  const { fleet } = data(reader.units);
  const days = periodText(fleet.period);
  return {
    title: `Trainer’s page, ${days}`,
    description: `Whom to see about what, skills by technician, and what came of trainings, ${days}`,
    reader,
    places: placeLinks('trainer'),
    body: (units, charts) => body(data(units), days, units, charts),
  };
}

async function body(data: TrainerData, days: string, units: UnitSystem, charts: PageCharts): Promise<Html> {
  const { fleet, skillCells, everyone, policyTitle } = data;
  addSkillTables(data, charts);
  const all = fleet.rates.map(({ skill: { id, title } }) => ({ id, title }));
  const skills = { all, first: firstSkill(data) };
  return html`<div class="page">
<header>
<h1>Who needs what, and what helped</h1>
<p class="lead">For the trainer · ${days} · ${countText(fleet.technicians, 'technician')}, ${countText(fleet.crews, 'crew')}, ${countText(fleet.jobs, 'judged job')} · by the policy “${policyTitle}” (${fleet.policyId})</p>
<nav class="nav" aria-label="On this page"><ul>
<li><a href="#first">Whom to see</a></li><li><a href="#skills">Skills</a></li><li><a href="#judged">What logs can carry</a></li><li><a href="#trainings">Trainings</a></li><li><a href="#changes">Changes</a></li><li><a href="#examples">Side by side</a></li><li><a href="#people">What scores cannot show</a></li><li><a href="#cautions">Cautions</a></li>
</ul></nav>
</header>
<main>
${whoToSeeSection(data)}
<noscript><p>The charts need scripts. The tables below them hold the same figures.</p></noscript>
${filterBar({ ...chartChoices({ ...skillCells, ...everyone }, 'who need coaching most and who have the most jobs'), skills, counted: { table: 'skill-cells', field: 'jobs', noun: 'jobs' } })}
${await skillSection(data, charts)}
${await judgedSection(data, charts)}
${trainingsSection(data)}
${changesSection(data)}
${await examplesSection(data, units, charts)}
${peopleScores('such jobs')}
${cautions}
</main>
</div>`;
}

function trainingsSection({ fleet: { trainings }, trainingsOnRecord }: TrainerData): Html {
  const left = trainingsOnRecord - trainings.length;
  return html`<section aria-labelledby="trainings"><h2 id="trainings">Did past trainings help?</h2>
${
  trainings.length === 0
    ? html`<p>No training is on record.</p>`
    : html`<p class="quiet">What was flagged after a training beside what was to be expected from before, the mix of jobs taken into account. It is no proof that the training did it.</p>
<ul class="notes">${trainings.map((training) => html`<li>${trainingText(training)}</li>`)}</ul>${left > 0 && html`<p class="quiet">${countText(left, 'more training')}: dryhold fleet --json</p>`}`
}
</section>`;
}

function changesSection({ fleet: { changes, lookedAt } }: TrainerData): Html {
  const joined = joinedChanges(changes);
  const shown = surest(joined, mostChanges);
  return html`<section aria-labelledby="changes"><h2 id="changes">What has changed over time?</h2>
<p class="quiet">${countText(lookedAt.series, 'series', 'series')} of people, crews and the fleet were looked at; chance alone signals in about ${lookedAt.byChance.toFixed(1)} of them.</p>
${shown.length === 0 ? html`<p>No change beyond chance.</p>` : html`<ul class="notes">${shown.map((change) => html`<li>${changeText(change)}</li>`)}</ul>${joined.length > shown.length && html`<p class="quiet">The ${shown.length} surest of ${joined.length}; all: dryhold fleet --json</p>`}`}
</section>`;
}
