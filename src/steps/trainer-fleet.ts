import { skills } from '../fleet/skill.ts';
import type { FleetReport, NamedUnit } from '../pages/fleet-data.ts';
import type { Store } from '../store/store.ts';
import type { ChangesThread } from './changes-thread.ts';
import { fleetReportOf, type WholeReportAsked } from './fleet-report.ts';
import type { OpenFleet } from './open-fleet.ts';

const kinds: readonly NamedUnit['kind'][] = ['technician', 'crew'];

/**
 * What a trainer is told of a fleet that is open: its whole report as far as it is about skills and about technicians and crews.
 *
 * @param timed its changes, where they were asked for already, so that other things could be done meanwhile
 */
export async function trainerFleet(
  store: Store,
  fleet: OpenFleet,
  asked: Pick<WholeReportAsked, 'trainings' | 'onProgress'> = {},
  timed?: ChangesThread,
): Promise<FleetReport> {
  const rates = skills.map(({ id }) => id);
  const report = await fleetReportOf(store, fleet, { ...asked, rates, kinds, withInstruments: false }, timed);
  return { ...report, standingOut: report.standingOut.filter(({ unit }) => kinds.includes(unit.kind)) };
}
