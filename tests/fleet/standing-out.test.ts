import { expect, test } from 'vitest';
import type { FleetJobs, Grouping } from '../../src/fleet/fleet-jobs.ts';
import { skillRates } from '../../src/fleet/skill-rates.ts';
import { skills } from '../../src/fleet/skill.ts';
import { falseDiscoveryLimit, standingOut } from '../../src/fleet/standing-out.ts';
import { type DrawnFleet, drawnFleet } from '../fleet-power/drawn-fleet.ts';

// Crew, pump, hoses and gauge of the drawn fleet are one, so that only the check can tell them apart.
const usual = { seed: 3, technicians: 16, crewSize: 4, jobsEach: 60, base: 0.3 } as const;
const badCrew = ({ crew }: { crew: number }): number => (crew === 1 ? 4 : 1);

/** The drawn fleet, with what its check said said by another one. */
function saidBy(checkId: string, jobs: FleetJobs): FleetJobs {
  const bits = (of: Uint32Array): Uint32Array => {
    const [at, moved] = [jobs.outcomes.checkIds.indexOf(checkId), new Uint32Array(of.length)];
    for (let job = 0; job < jobs.count; job += 1)
      if (of[2 * job] !== 0 || of[2 * job + 1] !== 0) moved[2 * job + (at >> 5)] |= 1 << (at & 31);
    return moved;
  };
  const { judged, found } = jobs.outcomes;
  return { ...jobs, outcomes: { ...jobs.outcomes, judged: bits(judged), found: bits(found) } };
}

function standing(skillId: string, checkId: string, odds: DrawnFleet['odds']) {
  const skill = skills.filter(({ id }) => id === skillId);
  const jobs = saidBy(checkId, drawnFleet({ ...usual, skills: [skillId], odds }));
  const rates = skill.map((each) => skillRates(jobs, each, { withInstruments: false }));
  const { units, tested } = standingOut(jobs, rates);
  const kinds: readonly Grouping[] = rates[0].groupings.map(({ grouping }) => grouping);
  return { units, tested, kinds };
}

test.each<[string, string, Grouping[]]>([
  ['rise', 'leaking', ['crew', 'hose-set', 'gauge']],
  ['rise', 'wet', ['crew', 'pump', 'hose-set', 'gauge']],
  ['evacuation', 'water-in-system', ['crew', 'pump']],
  ['evacuation', 'hold-short', ['crew']],
])(
  '%s flagged by %s of a whole crew is laid to its habits and the gear that could cause it',
  (skillId, checkId, kinds) => {
    const { units, kinds: all } = standing(skillId, checkId, badCrew);
    const ofShared = units.filter(({ grouping }) => grouping !== 'technician');
    expect(ofShared.map(({ grouping }) => grouping).toSorted()).toEqual(kinds.toSorted());
    for (const { laidTo, unit, checks } of ofShared) {
      expect([unit, laidTo.verdict, checks.map((share) => share.checkId)]).toEqual([1, 'shared', [checkId]]);
      expect(laidTo.shared.map(({ grouping }) => all[grouping])).toEqual(kinds);
    }
  },
);

test('a person who differs is told with the checks that say so, and nothing shared is blamed', () => {
  const { units } = standing('evacuation', 'hold-short', ({ technician }) => (technician === 5 ? 6 : 1));
  const [first] = units;
  expect(first).toMatchObject({ grouping: 'technician', unit: 5, laidTo: { verdict: 'people' } });
  expect(first.falseDiscoveryShare).toBeLessThan(falseDiscoveryLimit);
  expect(first.checks.map(({ checkId }) => checkId)).toEqual(['hold-short']);
  expect(units.filter(({ laidTo }) => laidTo.verdict === 'shared')).toEqual([]);
});

test('people and what they share are looked for apart', () => {
  const { tested } = standing('evacuation', 'hold-short', undefined);
  // Sixteen people; four crews, pumps, sets of hoses and gauges each.
  expect(tested).toEqual({ people: 16, shared: 16 });
});
