import type { UnitSystem } from '../units/display.ts';
import type { InUnits } from '../units/in-units.ts';
import { bookedMassText } from '../units/display.ts';
import { cautions } from './cautions.ts';
import { dayText, periodText } from './day-text.ts';
import { type Html, html } from './html.ts';
import { jobLink } from './job-link.ts';
import type { OwnerData } from './owner-data.ts';
import type { PageContent, Reader } from './page-content.ts';
import { placeLinks, reportPlaces, sheetsFolder } from './report-places.ts';
import type { SendBack } from './send-back.ts';
import { moreText, placeText, sendBackItem, visitText, whyText, doneText } from './send-back-section.ts';
import type { ServiceManagerData } from './service-manager-data.ts';
import { countText, groupedCount, shareText } from './share-text.ts';
import { isAnybodyHeld, nothingToldYet, unitText } from './standing-out-text.ts';
import type { TrainerData } from './trainer-data.ts';

/** What the pages of the three readers say, of which the start page says the first of each. */
export interface StartData {
  readonly manager: ServiceManagerData;
  readonly trainer: TrainerData;
  readonly owner: OwnerData;
}

/** So many more than the first are told here. */
const nextOnes = 4;

/**
 * The start page: whom to call first and why, then what is in the page of each reader.
 */
export function startPage(data: InUnits<StartData>, reader: Reader): PageContent {
  const { period } = data(reader.units).manager;
  return {
    title: `Whom to call first${period.to === '' ? '' : `, as of ${dayText(period.to)}`}`,
    description: 'Whom to call first, and the pages of the service manager, the trainer and the owner',
    reader,
    places: placeLinks('start'),
    body: (units) => body(data(units), units),
  };
}

function body({ manager, trainer, owner }: StartData, units: UnitSystem): Html {
  const { sendBack, sendBackOf, jobPages, period, jobs, policyTitle } = manager;
  const [first, ...others] = sendBack;
  const next = others.slice(0, nextOnes);
  return html`<div class="page">
<header>
<h1>Whom to call first</h1>
<p class="lead">${periodText(period)} · ${countText(jobs, 'judged job')} · by the policy “${policyTitle}”. As of the last day of the data.</p>
</header>
<main>
<section aria-labelledby="call"><h2 id="call" class="quiet-heading">${first === undefined ? 'Nobody has to be called' : `Call ${lowerFirst(placeText(first.job))}`}</h2>
${first === undefined ? html`<p>No open job of the last week failed a test of its system, and none stands out on the watch list. Jobs that could not be judged are counted on the service manager’s page.</p>` : firstCall(first, jobPages)}
</section>
${
  next.length > 0 &&
  html`<section aria-labelledby="next"><h2 id="next">Then</h2><ol class="plain todo">${next.map((entry) => sendBackItem(entry, jobPages))}</ol>
${sendBackOf > 1 + next.length && html`<p class="quiet">${countText(sendBackOf - 1 - next.length, 'more job asks', 'more jobs ask')} for a visit: <a href="${reportPlaces['service-manager'].file}#first" data-page>service manager’s page</a>.</p>`}</section>`
}
<div class="doors">
${door('service-manager', 'Callbacks before they come', managerLines(manager))}
${door('trainer', 'Whom to ride along with, on what', trainerLines(trainer))}
${door('owner', 'Where the refrigerant goes', ownerLines(owner, units))}
</div>
${cautions}
</main>
</div>`;
}

function firstCall(entry: SendBack, jobPages: ReadonlySet<string>): Html {
  const visit = visitText(entry);
  return html`<div class="call">${whyText(entry)}
${visit !== false && visit}
<p>Ring before you go; a licensed technician decides on site.</p>
<p class="quiet">${jobLink(entry.job.jobId, jobPages)} has the evidence · ${doneText(entry.job)}${moreText(entry)}</p></div>`;
}

function lowerFirst(text: string): string {
  return `${text.slice(0, 1).toLowerCase()}${text.slice(1)}`;
}

function door(place: 'service-manager' | 'trainer' | 'owner', title: string, lines: readonly (string | Html)[]): Html {
  const { file, title: reader } = reportPlaces[place];
  return html`<section class="door" aria-labelledby="door-${place}"><h2 id="door-${place}"><a href="${file}" data-page>${reader}</a></h2>
<p class="quiet">${title}</p>
<ul class="notes">${lines.map((line) => html`<li>${line}</li>`)}</ul></section>`;
}

function managerLines({ week, sendBackOf, callbacks }: ServiceManagerData): string[] {
  return [
    `${countText(sendBackOf, 'open job asks', 'open jobs ask')} for a visit`,
    `last week ${shareText(week.jobsFlagged, week.jobsJudged)} of the judged jobs were flagged`,
    `${countText(week.callbacks, 'callback')} last week, ${groupedCount(callbacks.callbacks)} on record`,
  ];
}

function trainerLines({ sheets, fleet }: TrainerData): (string | Html)[] {
  const asked = sheets.filter(({ report }) => report.topics.some(({ sureness }) => sureness !== 'may-be-chance'));
  if (asked.length === 0)
    return [
      isAnybodyHeld(fleet)
        ? 'nobody’s jobs show more than chance and the mix of jobs explain'
        : lowerFirst(nothingToldYet),
    ];
  return asked.slice(0, 3).map(({ file, report }) => {
    const topics = report.topics.filter(({ sureness }) => sureness !== 'may-be-chance');
    return html`<a href="${sheetsFolder}/${file}" data-page>${unitText(report.who)}</a>: ${topics.map(({ skill }) => skill.title).join(', ')}`;
  });
}

function ownerLines({ accounts, leaks, due }: OwnerData, units: UnitSystem): string[] {
  const overdue = due.open.filter(({ state }) => state === 'overdue').length;
  const over = leaks.ruled.filter(({ isOver, repairedDay }) => isOver[leaks.method] && repairedDay === null).length;
  const { chargedKg, unexplainedKg, unexplainedHalfWidthKg } = accounts.total;
  return [
    `${countText(over, 'leak rate is', 'leak rates are')} over the trigger and not repaired since`,
    `${countText(overdue, 'duty is', 'duties are')} overdue`,
    accounts.cylinders === 0
      ? 'no cylinder with weighings is on record, so nothing is balanced'
      : `${bookedMassText(chargedKg, units)} charged; ${bookedMassText(unexplainedKg, units)} unexplained (± ${bookedMassText(unexplainedHalfWidthKg, units)})`,
  ];
}
