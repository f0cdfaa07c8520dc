import { dayText } from './day-text.ts';
import { figureTable } from './figure-table.ts';
import { type Html, html } from './html.ts';
import type { OwnerData } from './owner-data.ts';
import { obligationText, sinceText } from './rule-text.ts';
import { countText, groupedCount } from './share-text.ts';

/** Of more only so many are told. */
const most = 60;
const words = {
  overdue: 'overdue',
  due: 'due',
  unknown: 'cannot be told',
  done: 'done',
  'done-late': 'done late',
} as const;

/** What is overdue, due soon, or cannot be told, and gauges to calibrate. */
export function dueSection({ due }: OwnerData): Html {
  const { open, doneLate, later, done, calibrations, calibrationMonths, withinDays } = due;
  const shown = [...open, ...doneLate].slice(0, most);
  const left = open.length + doneLate.length - shown.length;
  return html`<section aria-labelledby="due">
<h2 id="due">What is due, and what is overdue?</h2>
<p>As of ${dayText(due.asOf)}: due within ${countText(withinDays, 'day')} or overdue below; ${groupedCount(later)} due later, ${groupedCount(done)} done in time.</p>
${
  shown.length === 0
    ? html`<p>Nothing is overdue, due soon, or untold.</p>`
    : figureTable({
        caption: 'What rules ask for',
        heads: ['appliance', 'what', 'due', '', 'since', 'rule'],
        texts: [1, 3, 4, 5],
        rows: shown.map((line) => [
          line.siteId === null ? line.systemId : `${line.systemId} (${line.siteId})`,
          obligationText[line.kind],
          line.dueOn === null ? '–' : dayText(line.dueOn),
          words[line.state],
          line.state === 'unknown' ? `the record lacks ${line.lacks ?? 'what it counts from'}` : sinceText(line),
          `${line.ruleId} (${line.basis})`,
        ]),
      })
}
${left > 0 && html`<p class="quiet">${groupedCount(left)} more: <code>dryhold due --csv</code></p>`}
<h3>Vacuum gauges to calibrate</h3>
${
  calibrations.length === 0
    ? html`<p>None, ${calibrationMonths} months after the last time (common practice, no source).</p>`
    : html`<p class="quiet">${calibrationMonths} months after the last time (common practice, no source).</p><ul class="plain-list">${calibrations.map(({ gaugeId, calibratedOn, dueOn, state }) => html`<li>${gaugeId}: ${calibratedOn === null || dueOn === null ? 'no calibration is on record' : `${state} ${state === 'overdue' ? 'since ' : ''}${dayText(dueOn)}, calibrated ${dayText(calibratedOn)}`}</li>`)}</ul>`
}
</section>`;
}
