import type { CoachTopic } from './coach-data.ts';
import { type Html, html } from './html.ts';
import { outcomeTag } from './outcome-tag.ts';
import { sheetsFolder } from './report-places.ts';
import { countText } from './share-text.ts';
import {
  checkWords,
  excessText,
  isAnybodyHeld,
  laidToText,
  mostText,
  nothingToldYet,
  unitText,
} from './standing-out-text.ts';
import type { TrainerData } from './trainer-data.ts';

/** So many people are told of first. */
const most = 10;

/** Whom to see about what, surest first, with the sheet to take along. */
export function whoToSeeSection(data: TrainerData): Html {
  const { sheets, people } = data;
  const asked = sheets.filter(({ report }) => report.topics.some(isSure));
  const shown = asked.slice(0, most);
  return html`<section aria-labelledby="first">
<h2 id="first">Whom to see about what</h2>
${shown.length === 0 && html`<p>${isAnybodyHeld(data.fleet) ? 'Nobody for sure: in no skill was more found on anybody’s jobs than chance and the mix of jobs explain.' : nothingToldYet}</p>`}
${
  shown.length > 0 &&
  html`<p>More was found on these jobs than others’ jobs lead to expect. It is for a talk and a ride along, not for pay or discipline.</p>
<ol class="plain todo">${shown.map(({ file, report }) => {
    const [first, ...rest] = report.topics.filter(isSure);
    return html`<li><div>${first.sureness === 'stands-out' ? outcomeTag('fail', 'stands out') : outcomeTag('suspect', 'likely')}</div>
<div><h3>${unitText(report.who)}: ${first.skill.title}</h3>
${[excessText(first), mostText(first, checkWords), laidToText(first)].filter((text) => text !== '').map((text) => html`<p>${text}</p>`)}
${rest.length > 0 && html`<p class="quiet">Then: ${rest.map(({ skill }) => skill.title).join(', ')}.</p>`}
<p><a href="${sheetsFolder}/${file}" data-page>Coaching sheet of ${unitText(report.who)}</a></p></div></li>
`;
  })}</ol>
${asked.length > shown.length && html`<p class="quiet">${countText(asked.length - shown.length, 'more sheet')} with a topic: see the list below.</p>`}`
}
<details><summary>All coaching sheets: ${countText(sheets.length, 'technician or crew', 'technicians and crews')}${people > sheets.length && ` of ${people}, who need one most; the others’ by dryhold coach`}</summary>
<ul class="columns">${sheets.map(({ file, report }) => html`<li><a href="${sheetsFolder}/${file}" data-page>${unitText(report.who)}</a> <span class="quiet">${topicsText(report.topics)}</span></li>`)}</ul></details>
</section>`;
}

const isSure = ({ sureness }: CoachTopic): boolean => sureness !== 'may-be-chance';

function topicsText(topics: readonly CoachTopic[]): string {
  const sure = topics.filter(isSure).map(({ skill }) => skill.title);
  return sure.length === 0 ? 'nothing sure' : sure.join(', ');
}
