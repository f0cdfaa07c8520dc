import { fleetReport } from '../../../src/steps/fleet-report.ts';
import { technicians } from '../../../src/simulate/technicians.ts';
import { habits, isPlanted } from '../../steps/planted-habits.ts';
import { type Claim, claim } from '../claim.ts';
import type { JudgedFleet } from './judged-fleet.ts';

/** People who really work otherwise, and who is said to stand out. Only a few dozen comparisons: measured, no more. */
export async function peopleClaims({ store, seed }: JudgedFleet): Promise<Claim[]> {
  const { standingOut } = await fleetReport(store, { codes: false, rates: [] });
  const laid = standingOut
    .filter(({ laidTo }) => laidTo.verdict === 'people' || laidTo.verdict === 'both')
    .flatMap(({ skill, laidTo }) => laidTo.people.map(({ id }) => ({ id, skill: skill.id })));
  const planted = technicians.flatMap(({ technicianId: id }) =>
    Object.keys(habits)
      .filter((skill) => isPlanted(id, skill))
      .map((skill) => ({ id, skill })),
  );
  const plan = (id: string) => ({ seed, number: Number(id.replaceAll(/\D/g, '')), kind: id });
  const isLaid = (id: string, skill: string) => laid.some((one) => one.id === id && one.skill === skill);
  const stands = (id: string, skill: string) =>
    standingOut.some((one) => one.unit.kind === 'technician' && one.unit.id === id && one.skill.id === skill);
  return [
    claim(
      'a person who has twice the usual of a habit stands out by it: recall',
      planted.map(({ id, skill }) => ({
        plan: plan(id),
        value: stands(id, skill),
        badness: stands(id, skill) ? 0 : 1,
        says: `${skill}, ${isLaid(id, skill) ? 'laid to the person' : 'not told'}`,
      })),
    ),
    claim(
      'what is laid to a person is a habit of that person: precision',
      laid.map(({ id, skill }) => ({
        plan: plan(id),
        value: isPlanted(id, skill),
        badness: isPlanted(id, skill) ? 0 : 1,
        says: skill,
      })),
    ),
  ];
}
