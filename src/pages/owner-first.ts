import { bookedMassText, type UnitSystem } from '../units/display.ts';
import type { RemarkedCylinder } from './accounts-data.ts';
import { co2eText } from './co2e-text.ts';
import { cylinderRemarkText } from './cylinder-remark-text.ts';
import { dayText } from './day-text.ts';
import { type Html, html } from './html.ts';
import type { DueLine, LeakLine } from './leaks-data.ts';
import type { OwnerData } from './owner-data.ts';
import { outcomeTag } from './outcome-tag.ts';
import { leakRateText, obligationText } from './rule-text.ts';
import { countText, groupedCount, percentText } from './share-text.ts';

/** Of more of a kind only so many are told first. */
const most = { appliances: 8, cylinders: 3 } as const;

/** What an owner would do first: appliances with something overdue or a rate over its trigger, and what is missing from cylinders. */
export function ownerFirst({ accounts, leaks, due, units }: OwnerData): Html {
  const overdue = due.open.filter(({ state }) => state === 'overdue');
  const over = leaks.ruled.filter(({ isOver, repairedDay }) => isOver[leaks.method] && repairedDay === null);
  const missing = accounts.remarked.filter(({ remarks }) =>
    remarks.some(({ id }) => id === 'missing' || id === 'overfilled'),
  );
  const duties = Map.groupBy(overdue, ({ systemId }) => systemId);
  const systems = [...new Set([...duties.keys(), ...over.map(({ appliance }) => appliance.systemId)])];
  const entries = [
    ...systems
      .slice(0, most.appliances)
      .map((system) => applianceEntry(duties.get(system) ?? [], lineOf(over, system), leaks, units)),
    ...missing.slice(0, most.cylinders).map((cylinder) => cylinderEntry(cylinder, units)),
  ];
  const gauges = due.calibrations.filter(({ state }) => state === 'overdue').length;
  const ofKind = (id: string) => missing.filter(({ remarks }) => remarks.some((remark) => remark.id === id)).length;
  const counts = [
    `${countText(overdue.length, 'duty', 'duties')} overdue`,
    `${countText(over.length, 'leak rate')} over the trigger and not repaired since`,
    `${countText(ofKind('missing'), 'cylinder')} with something missing`,
    ...(ofKind('overfilled') === 0 ? [] : [`${groupedCount(ofKind('overfilled'))} overfilled`]),
    ...(gauges === 0 ? [] : [`${countText(gauges, 'vacuum gauge')} overdue for calibration`]),
  ];
  const moreAppliances = systems.length - most.appliances;
  const moreCylinders = missing.length - most.cylinders;
  return html`<section aria-labelledby="first">
<h2 id="first">What to do first</h2>
<p>${counts.join(', ')}, as of ${dayText(due.asOf)}, the last day on record.</p>
${entries.length > 0 && html`<ol class="plain todo">${entries}</ol>`}
${moreAppliances > 0 && html`<p class="quiet">${countText(moreAppliances, 'more appliance')}: <a href="#due">what is due</a>.</p>`}
${moreCylinders > 0 && html`<p class="quiet">${countText(moreCylinders, 'more cylinder')}: <a href="#balances">below</a>, under “cylinders to look at”.</p>`}
</section>`;
}

function lineOf(over: readonly LeakLine[], systemId: string): LeakLine | undefined {
  return over.find(({ appliance }) => appliance.systemId === systemId);
}

function applianceEntry(
  duties: readonly DueLine[],
  line: LeakLine | undefined,
  { method, vintage }: OwnerData['leaks'],
  units: UnitSystem,
): Html {
  const [first] = duties;
  const systemId = line?.appliance.systemId ?? first.systemId;
  const siteId = line?.appliance.siteId ?? first?.siteId ?? null;
  const rate =
    line === undefined || line.latest === null
      ? ''
      : `Leaks ${leakRateText(line.latest[method])} a year by the ${method} method, over ${percentText(line.trigger)}: find the leak, repair it, and verify the repair.`;
  const asked = duties.map(
    ({ kind, dueOn }) => `${obligationText[kind]} (${dueOn === null ? 'no day' : dayText(dueOn)})`,
  );
  const rules = [...new Set(duties.map(({ ruleId }) => ruleId))].join(', ');
  return html`<li><div>${outcomeTag('fail', duties.length > 0 ? 'overdue' : 'over')}</div>
<div><span class="job">${siteId === null ? systemId : `${systemId}, ${siteId}`}</span>${rate !== '' && html`<p>${rate}</p>`}
${asked.length > 0 && html`<p>Overdue: ${asked.join(', ')}.</p>`}
<p class="quiet">${[...(line === undefined ? [] : [`${bookedMassText(line.yearKg, units)} added within a year, ${co2eText(line.year.co2eT, vintage)}`]), ...(rules === '' ? [] : [rules])].join('; ')}</p></div></li>
`;
}

function cylinderEntry({ cylinderId, refrigerant, remarks }: RemarkedCylinder, units: UnitSystem): Html {
  const [first] = remarks.filter(({ id }) => id === 'missing' || id === 'overfilled');
  return html`<li><div>${outcomeTag('suspect', first.id === 'overfilled' ? 'overfilled' : 'missing')}</div>
<div><span class="job">${cylinderId}</span><p>${cylinderRemarkText(first, units)}</p><p class="quiet">${refrigerant ?? 'refrigerant not known'}</p></div></li>
`;
}
