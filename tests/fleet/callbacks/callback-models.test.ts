import { describe, expect, test } from 'vitest';
import { AgeHazard } from '../../../src/fleet/callbacks/age-hazard.ts';
import { callbackFree } from '../../../src/fleet/callbacks/callback-free.ts';
import { RiskModel } from '../../../src/fleet/callbacks/callback-risk.ts';
import { fitWithinPeople, forerunners, jointEffect } from '../../../src/fleet/callbacks/forerunners.ts';
import { choosePredictors, predictorValue } from '../../../src/fleet/callbacks/predictors.ts';
import { preventedCallbacks, revisitWeights } from '../../../src/fleet/callbacks/revisits.ts';
import { lookBack } from '../../../src/fleet/callbacks/risk-record.ts';
import { openJobs, watchList } from '../../../src/fleet/callbacks/watch-list.ts';
import { savedCallbacks } from '../../../src/fleet/coaching/saved-callbacks.ts';
import { jobsByUnit } from '../../../src/fleet/jobs-by-unit.ts';
import { skills, skillOutcome } from '../../../src/fleet/skill.ts';
import { Random } from '../../../src/numerics/random.ts';
import { drawnCallbacks, horizonDays, watchedJobs } from '../../callback-power/drawn-callbacks.ts';

const fleet = { technicians: 12, crewSize: 3, jobsEach: 120, base: 0.2, overDays: 730 } as const;
const planted = drawnCallbacks({
  fleet: { ...fleet, seed: 4 },
  hazard: 0.12,
  ratios: { evacuation: 4, rise: 2 },
  revisits: { evacuation: 2 },
});
const followed = watchedJobs(planted);
const callbacks = followed.events.reduce((sum, event) => sum + event, 0);
const predictors = choosePredictors(planted.jobs, followed, callbacks);
const period = { fromDay: planted.jobs.days[0], toDay: planted.toDay, horizonDays };

describe('the hazard by age', () => {
  const ages = (of: readonly number[]) => {
    const stops = Float64Array.from(of, (age) => Math.min(365, Math.floor(age)));
    return { entries: stops.map(() => -1), stops, events: Uint8Array.from(of, (age) => Number(age <= 365)) };
  };

  test('finds Weibull’s scale and shape', () => {
    const random = new Random(2);
    const drawn = Array.from({ length: 20_000 }, () => 2000 * random.exponential(1) ** (1 / 0.8));
    const hazard = new AgeHazard(ages(drawn));
    for (const age of [30, 100, 365]) expect(hazard.between(-1, age) / (age / 2000) ** 0.8).toBeCloseTo(1, 1);
    expect(hazard.between(-1, 400)).toBeGreaterThan(hazard.between(-1, 365));
  });

  test('adds up to as many callbacks as came', () => {
    const hazard = new AgeHazard(followed);
    const sum = followed.jobs.reduce(
      (all, _, row) => all + hazard.between(followed.entries[row], followed.stops[row]),
      0,
    );
    expect(sum).toBeCloseTo(callbacks, 6);
  });

  test('is none where nobody called', () => {
    expect(new AgeHazard(ages([900, 900, 900])).between(-1, 300)).toBe(0);
  });
});

describe('predictors', () => {
  test('are single checks where callbacks allow for it, else groups, else none', () => {
    expect(predictors.by).toBe('checks');
    expect(predictors.chosen).toHaveLength(7);
    const few = choosePredictors(planted.jobs, followed, 45);
    expect([few.by, few.chosen.length, few.beyond.length]).toEqual(['groups', 4, 3]);
    expect(choosePredictors(planted.jobs, followed, 9).chosen).toEqual([]);
  });

  test('are the same whatever came of the jobs', () => {
    const other = { ...followed, events: followed.events.map((_, at) => Number(at < callbacks)) };
    const ids = (of: typeof predictors) => of.chosen.map(({ skill }) => skill.id);
    expect(ids(choosePredictors(planted.jobs, other, callbacks))).toEqual(ids(predictors));
  });

  test('stand for those that never come apart from them', () => {
    const { outcomes } = planted.jobs;
    const [first, second] = predictors.chosen.map(({ skill }) => outcomes.checkIds.indexOf(skill.checkIds[0]));
    const twin = structuredClone(outcomes.found);
    const bit = (of: Uint32Array, at: number, check: number) => (of[2 * at + (check >> 5)] >>> (check & 31)) & 1;
    for (let at = 0; at < planted.jobs.count; at += 1) {
      const place = 2 * at + (second >> 5);
      twin[place] = (twin[place] & ~(1 << (second & 31))) | (bit(outcomes.found, at, first) << (second & 31));
    }
    const twins = choosePredictors({ ...planted.jobs, outcomes: { ...outcomes, found: twin } }, followed, callbacks);
    expect(twins.chosen).toHaveLength(6);
    expect(twins.chosen.flatMap(({ standsFor }) => standsFor)).toHaveLength(1);
  });

  test('have the usual value where nothing could be judged', () => {
    const predictor = { ...predictors.chosen[0], outcomes: Uint8Array.from(Object.values(skillOutcome)), usual: 0.3 };
    expect([0, 1, 2, 3].map((job) => predictorValue(predictor, job))).toEqual([0.3, 0.3, 0, 1]);
  });
});

const forerunnersOf = (jobs: typeof planted.jobs) => {
  const within = fitWithinPeople(jobs, followed, predictors.chosen);
  return within === undefined ? [] : forerunners(within);
};

describe('forerunners', () => {
  test('are sought among the jobs of a crew where no person is on record, and nowhere where neither is', () => {
    const { jobs } = planted;
    const nobody = { ids: [], of: new Int32Array(jobs.count).fill(-1) };
    const crews = forerunnersOf({ ...jobs, units: { ...jobs.units, technician: nobody } });
    expect(crews.some(({ isForerunner }) => isForerunner)).toBe(true);
    const without = forerunnersOf({ ...jobs, units: { ...jobs.units, technician: nobody, crew: nobody } });
    expect(without.some(({ isForerunner }) => isForerunner)).toBe(false);
  });

  const told = forerunnersOf(planted.jobs);

  test('are those that multiply the hazard', () => {
    const named = told.filter(({ isForerunner }) => isForerunner).map(({ predictor }) => predictor.skill.checkIds[0]);
    expect(named).toContain(skills.find(({ id }) => id === 'evacuation')?.checkIds[0]);
    for (const { low, ratio, high, chance } of told) {
      expect(low).toBeLessThan(ratio);
      expect(ratio).toBeLessThan(high);
      expect(chance).toBeGreaterThanOrEqual(0);
      expect(chance).toBeLessThanOrEqual(1);
    }
  });

  test('do not change where callbacks have nothing to do with who did the job', () => {
    const { jobs } = planted;
    const one = { ...jobs, units: { ...jobs.units, technician: { ids: ['all'], of: new Int32Array(jobs.count) } } };
    const merged = forerunnersOf(one);
    for (const [at, { ratio }] of told.entries()) expect(merged[at].ratio / ratio).toBeCloseTo(1, 0);
  });
});

describe('risks', () => {
  const model = RiskModel.fit(planted.jobs, followed, predictors.chosen);
  if (model === undefined) throw new Error('no model of the drawn fleet');

  test('add up to the callbacks that came', () => {
    const sum = Array.from(followed.jobs).reduce(
      (all, job, row) => all + model.hazard(job, followed.entries[row], followed.stops[row]),
      0,
    );
    expect(sum).toBeCloseTo(callbacks, 6);
  });

  test('are higher where the hazard is, and within their interval', () => {
    const all = openJobs(planted.courses, period, planted.toDay, 90);
    const open = watchList(all, model);
    expect(open).toHaveLength(all.length);
    for (const { risk, baseRisk } of open) {
      expect(risk.low).toBeLessThan(risk.risk);
      expect(risk.risk).toBeLessThan(risk.high);
      expect(baseRisk).toBeGreaterThan(0);
    }
    const meanHazard = (of: typeof open) => of.reduce((sum, { job }) => sum + planted.hazards[job], 0) / of.length;
    const tenth = Math.floor(open.length / 10);
    expect(meanHazard(open.slice(0, tenth)) / meanHazard(open.slice(-tenth))).toBeGreaterThan(2.5);
    expect(open[0].reasons.length).toBeGreaterThan(0);
    expect(open[0].reasons.every(({ ratio }) => ratio > 1)).toBe(true);
  });

  const within = fitWithinPeople(planted.jobs, followed, predictors.chosen);
  if (within === undefined) throw new Error('nothing told of the drawn fleet');
  const evacuation = skills.find(({ id }) => id === 'evacuation') ?? skills[0];
  const isEvacuation = ({ skill }: { skill: { checkIds: readonly string[] } }) =>
    skill.checkIds[0] === evacuation.checkIds[0];

  test('the effect of findings on a job is that of those that were found', () => {
    const predictor = predictors.chosen.find(isEvacuation);
    const [found, clean] = [skillOutcome.found, skillOutcome.clean].map((outcome) =>
      planted.jobs.days.findIndex((_, job) => predictor?.outcomes[job] === outcome),
    );
    const { effect, deviation } = jointEffect(within, isEvacuation, found);
    expect(Math.abs(effect - Math.log(4)) / deviation).toBeLessThan(3);
    expect(jointEffect(within, isEvacuation, clean)).toEqual({ effect: 0, deviation: 0 });
  });

  describe('what would be saved', () => {
    const own = jobsByUnit(planted.jobs.units.technician)[0];
    const found = Array.from(own).filter(
      (job) => predictors.chosen.find(isEvacuation)?.outcomes[job] === skillOutcome.found,
    );
    const saved = (jobs: number, deviation: number) =>
      savedCallbacks(
        planted.jobs,
        { risk: model, within },
        evacuation,
        { own, found, believed: { jobs, deviation } },
        365,
      );

    test('is no more than the callbacks of the jobs, and goes with the excess', () => {
      const years = (planted.jobs.days[own[own.length - 1]] - planted.jobs.days[own[0]] + 1) / 365.25;
      const all = found.reduce((sum, job) => sum + model.risk(job, -1, 365).risk, 0) / years;
      const [most, half] = [saved(found.length, 0), saved(found.length / 2, 0)];
      expect(most?.risk).toBeGreaterThan(0);
      expect(most?.risk).toBeLessThan(all);
      expect((half?.risk ?? 0) * 2).toBeCloseTo(most?.risk ?? 1, 9);
    });

    test('is the less sure, the less sure the excess is; of none it is nothing', () => {
      const [sure, unsure] = [saved(5, 0), saved(5, 4)].map((one) => (one?.high ?? 0) - (one?.low ?? 0));
      expect(unsure).toBeGreaterThan(sure);
      expect(saved(0, 0)).toBeNull();
      expect(saved(-2, 1)).toBeNull();
    });

    test('is told of at least a season', () => {
      const few = own.slice(0, 3);
      expect(
        savedCallbacks(
          planted.jobs,
          { risk: model, within },
          evacuation,
          { own: few, found: [few[0]], believed: { jobs: 1, deviation: 0 } },
          365,
        ),
      ).toBeNull();
    });
  });

  test('looking back knows nothing of what came later', () => {
    const record = lookBack(planted.jobs, planted.courses, period, 90);
    // What came in the last window changes what was expected of it in no way.
    const blank = planted.courses.callbackDays.map((day) =>
      day > planted.toDay - 90 ? Number.POSITIVE_INFINITY : day,
    );
    const without = lookBack(planted.jobs, { ...planted.courses, callbackDays: blank }, period, 90);
    expect(record?.jobs).toBe(without?.jobs);
    const risks = (of: typeof record) => of?.tenths.map(({ risk }) => risk);
    expect(risks(without)).toEqual(risks(record));
    expect(record?.observed).toBeGreaterThan(without?.observed ?? 0);
  });

  test('too few callbacks before every day to look back from', () => {
    expect(lookBack(planted.jobs, planted.courses, { ...period, toDay: period.fromDay + 200 }, 90)).toBeUndefined();
  });
});

describe('visits', () => {
  test('weigh those that were not visited the more, the longer', () => {
    const weights = revisitWeights(planted.jobs, followed);
    const rows = [...followed.jobs.keys()];
    const mean = (age: number) => rows.reduce((sum, row) => sum + (weights?.(row, age) ?? 0), 0) / rows.length;
    expect(mean(1)).toBeCloseTo(1, 1);
    expect(mean(200)).toBeGreaterThan(mean(50));
    expect(revisitWeights(planted.jobs, { ...followed, endings: followed.endings.map(() => 0) })).toBeUndefined();
  });

  test('are counted, and what they prevented is told where callbacks tell it', () => {
    const model = RiskModel.fit(planted.jobs, followed, predictors.chosen);
    const {
      visits,
      callbacks: prevented,
      allTheSame,
    } = preventedCallbacks(followed, planted.courses, model, horizonDays);
    expect(visits).toBeGreaterThan(50);
    expect(prevented?.expected).toBeGreaterThan(0);
    expect(prevented?.low).toBeLessThan(prevented?.expected ?? 0);
    expect(allTheSame).toBeLessThan(visits);
    expect(preventedCallbacks(followed, planted.courses, undefined, horizonDays)).toEqual({
      visits,
      callbacks: null,
      allTheSame,
    });
  });
});

test('shares with a callback by group: flagged above clean, and all jobs are in one', () => {
  const { groups, logRank, isWeighted } = callbackFree(planted.jobs, followed, [90, 180]);
  expect(groups.reduce((sum, { jobs }) => sum + jobs, 0)).toBe(followed.jobs.length);
  expect(groups.reduce((sum, group) => sum + group.callbacks, 0)).toBe(callbacks);
  const [flagged, clean] = groups;
  expect(flagged.shares[1].low ?? 0).toBeGreaterThan(clean.shares[1].share ?? 1);
  expect(logRank?.statistic).toBeGreaterThan(4);
  expect(isWeighted).toBe(true);
});

test('groups that never stood beside each other are not compared', () => {
  const silent = { ...followed, events: new Uint8Array(followed.events.length) };
  expect(callbackFree(planted.jobs, silent, [90]).logRank).toBeNull();
});
