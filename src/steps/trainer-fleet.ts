import { skills } from '../fleet/skill.ts';
import type { FleetReport, NamedUnit } from '../pages/fleet-data.ts';
import type { Store } from '../store/store.ts';
import { fleetReportOf, type WholeReportAsked } from './fleet-report.ts';
import type { OpenFleet } from './open-fleet.ts';

const kinds: readonly NamedUnit['kind'][] = ['technician', 'crew'];

/** What a trainer is told of a fleet that is open: its whole report as far as it is about skills and about technicians and crews. */
export async function trainerFleet(
  store: Store,
  fleet: OpenFleet,
  asked: Pick<WholeReportAsked, 'trainings' | 'onProgress'> = {},
): Promise<FleetReport> {
  const rates = skills.map(({ id }) => id);
  const report = await fleetReportOf(store, fleet, { ...asked, rates, kinds, withInstruments: false });
  return { ...report, standingOut: report.standingOut.filter(({ unit }) => kinds.includes(unit.kind)) };
}
