import { describe, expect, test } from 'vitest';
import { checks } from '../../src/checks/checks.ts';
import type { FleetJobs } from '../../src/fleet/fleet-jobs.ts';
import { type Skill, skillOutcome, skills } from '../../src/fleet/skill.ts';
import { type JudgedSkill, judgedSkill, topicSkills, trainingResult } from '../../src/fleet/training-results.ts';
import { drawnFleet } from '../fleet-power/drawn-fleet.ts';

describe('topicSkills', () => {
  test.each([
    ['leaking', ['leaking']],
    ['no-rise-test', ['no-rise-test']],
    ['rise', ['rise', 'rise-made']],
    ['pressure-test', ['pressure-test', 'pressure-test-made']],
    ['evacuation', ['evacuation']],
    ['tests-made', ['tests-made']],
    ['vacuum-log', ['vacuum-log']],
    ['knots', []],
    ['', []],
  ])('"%s" is about %j', (topic, ids) => {
    expect(topicSkills(topic).map(({ id }) => id)).toEqual(ids);
  });

  test('a group is about all of its checks', () => {
    for (const group of new Set(checks.map((check) => check.group)))
      expect(
        topicSkills(group)
          .flatMap(({ checkIds }) => checkIds)
          .toSorted(),
      ).toEqual(checks.flatMap((check) => (check.group === group ? [check.id] : [])).toSorted());
  });
});

describe('trainingResult', () => {
  const evacuation = skills.find(({ id }) => id === 'evacuation') as Skill;
  /** A fleet in which one technician, bad at it, does as others do from the middle of the year on. */
  function trained(seed: number): { jobs: FleetJobs; rates: JudgedSkill } {
    const jobs = drawnFleet({
      seed,
      technicians: 10,
      crewSize: 5,
      jobsEach: 120,
      base: 0.2,
      skills: ['evacuation'],
      odds: ({ technician, time }) => (technician === 3 && time < 0.5 ? 8 : 1),
    });
    return { jobs, rates: judgedSkill(jobs, evacuation) };
  }
  const middle = 20_000 + 182;

  test('tells the one who got better, and no change of all others', () => {
    for (const seed of [1, 2]) {
      const { jobs, rates } = trained(seed);
      const verdicts = jobs.units.technician.ids.map((_, at) => trainingResult(jobs, rates, at, middle).verdict);
      expect(verdicts).toEqual(verdicts.map((__, at) => (at === 3 ? 'better' : 'no-change-shown')));
    }
  });

  test('counts the judged jobs of the one technician, the day of the training itself as before', () => {
    const { jobs, rates } = trained(1);
    const ofOne = Array.from(jobs.days.keys()).filter((job) => jobs.units.technician.of[job] === 3);
    // Some were not judged.
    const outcomes = rates.outcomes.slice();
    for (const job of ofOne.filter((_, at) => at % 7 === 0)) outcomes[job] = skillOutcome.missing;
    for (const job of ofOne.filter((_, at) => at % 11 === 0)) outcomes[job] = skillOutcome.notEvaluated;
    const days = [...new Set(ofOne.map((job) => jobs.days[job]))];
    for (const day of [days[0] - 1, days[10], days[40] - 1, days[40], days[days.length - 1]]) {
      const { before, after } = trainingResult(jobs, { ...rates, outcomes }, 3, day);
      const counts = (isOn: (job: number) => boolean) => {
        const judged = ofOne.filter((job) => isOn(job) && outcomes[job] >= skillOutcome.clean);
        const expected = judged.reduce((sum, job) => sum + rates.chances[job], 0);
        return {
          jobs: judged.length,
          found: judged.filter((job) => outcomes[job] === skillOutcome.found).length,
          expected,
        };
      };
      const [then, since] = [counts((job) => jobs.days[job] <= day), counts((job) => jobs.days[job] > day)];
      expect(before).toMatchObject({ ...then, expected: expect.closeTo(then.expected, 9) });
      expect(after).toMatchObject({ ...since, expected: expect.closeTo(since.expected, 9) });
    }
  });

  test('before the first job or on the day of the last one there is too little to tell', () => {
    const { jobs, rates } = trained(1);
    for (const day of [0, jobs.days[jobs.count - 1]])
      expect(trainingResult(jobs, rates, 3, day).verdict).toBe('too-few');
    expect(trainingResult(jobs, rates, 3, 0).before).toMatchObject({ jobs: 0, found: 0 });
  });
});
