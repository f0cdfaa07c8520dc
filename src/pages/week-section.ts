import { massText, type UnitSystem } from '../units/display.ts';
import { dayText } from './day-text.ts';
import { type Html, html } from './html.ts';
import type { ServiceManagerData, WeekFigures } from './service-manager-data.ts';
import { countText, groupedCount, percentText, shareText } from './share-text.ts';

/** The last week in ten lines. */
export function weekSection(data: Pick<ServiceManagerData, 'week' | 'sendBackOf' | 'risk'>, units: UnitSystem): Html {
  const { from, to } = data.week;
  if (to === '')
    return html`<section aria-labelledby="week"><h2 id="week">The last week</h2><p>There are no jobs in the data.</p></section>`;
  return html`<section aria-labelledby="week">
<h2 id="week">The last week in ten lines</h2>
<p class="quiet">${dayText(from)} to ${dayText(to)}, the last seven days of the data.</p>
<ul class="notes">${weekLines(data, units).map((line) => html`<li>${line}</li>`)}</ul>
</section>`;
}

/** The same, line by line. */
export function weekLines(
  { week, sendBackOf, risk }: Pick<ServiceManagerData, 'week' | 'sendBackOf' | 'risk'>,
  units: UnitSystem,
): string[] {
  const { jobs, jobsJudged, jobsFlagged, before } = week;
  const beforeText = before.days === 28 ? 'four weeks' : countText(before.days, 'day');
  return [
    `${countText(jobs, 'job')} came in; ${before.days < 7 ? 'no whole week is on record before' : `in the ${beforeText} before it was ${groupedCount(Math.round((7 * before.jobs) / before.days))} a week`}.`,
    `${groupedCount(jobsJudged)} of them could be judged by any check; ${groupedCount(jobs - jobsJudged)} have no usable log or record.`,
    `Flagged: ${shareText(jobsFlagged, jobsJudged)} of the judged jobs${before.days === 0 ? '' : `; in the ${beforeText} before, ${shareText(before.jobsFlagged, before.jobsJudged)}`}.`,
    testLine(week, 'no-pressure-test', 'a standing pressure test'),
    testLine(week, 'no-rise-test', 'a rise test'),
    foundLine(week, ['pressure-not-held', 'leaking'], 'Signs of a leak'),
    foundLine(week, ['wet', 'water-in-system', 'rise-over-limit'], 'Water, or a rise over its limit'),
    `${foundLine(week, ['charge-off-target'], 'Charge off its target').slice(0, -1)}; ${massText(week.chargedKg, units)} charged on ${countText(week.chargedJobs, 'job')}.`,
    `${countText(week.callbacks, 'callback')} reported, ${groupedCount(week.callbacksOfCommissioning)} of them probably of commissioning.`,
    watchLine(risk, sendBackOf),
  ];
}

function ofCheck({ checks }: WeekFigures, id: string): { readonly found: number; readonly judged: number } {
  return checks.find(({ checkId }) => checkId === id) ?? { found: 0, judged: 0 };
}

/** A test that is asked for: flagged where it was not made. */
function testLine(week: WeekFigures, checkId: string, test: string): string {
  const { found, judged } = ofCheck(week, checkId);
  if (judged === 0) return `On no job could it be told whether ${test} was made.`;
  return `${groupedCount(judged - found)} of ${countText(judged, 'job')} (${percentText((judged - found) / judged)}) show ${test}.`;
}

/** How often some checks found what they look for; of one check alone `what` says which. */
function foundLine(week: WeekFigures, checkIds: readonly string[], what: string): string {
  const parts = checkIds.map((id) => {
    const { found, judged } = ofCheck(week, id);
    const name = checkIds.length === 1 ? '' : `${id.replaceAll('-', ' ')} on `;
    return judged === 0 ? `${name}none judged` : `${name}${groupedCount(found)} of ${countText(judged, 'judged job')}`;
  });
  return `${what}: ${parts.join(', ')}.`;
}

function watchLine({ noList, openJobs, expected, windowDays }: ServiceManagerData['risk'], sentBack: number): string {
  const visits = `${countText(sentBack, 'job asks', 'jobs ask')} for a visit`;
  if (noList === 'too-few' || noList === 'not-told') return `${visits}; which open jobs call back cannot be told yet.`;
  return `${visits}; of ${countText(openJobs, 'open job')} about ${expected < 9.95 ? expected.toFixed(1) : groupedCount(Math.round(expected))} are to be expected to call back within ${windowDays} days.`;
}
