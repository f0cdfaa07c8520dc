import { expect, test } from 'vitest';
import type { Units } from '../../src/fleet/fleet-jobs.ts';
import { skillRates } from '../../src/fleet/skill-rates.ts';
import { skills } from '../../src/fleet/skill.ts';
import { checkIds, jobsOf } from './any-fleet.ts';

const [evacuation] = skills.filter(({ id }) => id === 'evacuation');
const check = checkIds.indexOf(evacuation.checkIds[0]);
const said = (outcome: 'pass' | 'found') => checkIds.map((_, at) => (at === check ? outcome : 'not-evaluated'));

const unitsOf = (count: number, of: Int32Array): Units => ({
  ids: Array.from({ length: count }, (_, at) => `unit-${at}`),
  of,
});

/** Jobs of which every fifth is flagged, by people in turn; by job its crew. The pump of a crew is counted from the other end. */
function rates(count: number, crews: number) {
  const [passed, found] = [said('pass'), said('found')];
  const crew = Int32Array.from({ length: count }, (_, job) => job % crews);
  const jobs = jobsOf(
    Array.from(crew, (_, job) => (job % 5 === 0 ? found : passed)),
    {
      technician: unitsOf(
        3,
        Int32Array.from(crew.keys(), (job) => job % 3),
      ),
      crew: unitsOf(crews, crew),
      // One pump more than there are crews, which nobody uses.
      pump: unitsOf(
        crews + 1,
        crew.map((unit) => crews - 1 - unit),
      ),
    },
  );
  return skillRates(jobs, evacuation, { withInstruments: true }).groupings;
}

test('crew and pump that never part have one effect, each in the order of its units', () => {
  const [, crew, pump] = rates(600, 10);
  const effects = [...(crew.own?.effects ?? [])];
  expect(new Set(effects.map((effect) => effect.toFixed(6))).size).toBeGreaterThan(1);
  expect([...(pump.own?.effects ?? [])]).toEqual([...effects.toReversed(), 0]);
  expect(pump.own?.deviations).toHaveLength(11);
});
