import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { FittedRise } from '../../src/charts/fitted-rise.ts';
import type { JobEvidence } from '../../src/pages/job-evidence-data.ts';
import { facts as factsTable, type Facts } from '../../src/records/tables/facts.ts';
import { simulateFleet } from '../../src/simulate/fleet.ts';
import { writeBundle } from '../../src/simulate/write-bundle.ts';
import type { Evidence } from '../../src/checks/check.ts';
import { storyLimits } from '../../src/steps/evidence-limits.ts';
import { ingest } from '../../src/steps/ingest.ts';
import { jobEvidence } from '../../src/steps/job-evidence.ts';
import type { InUnits } from '../../src/units/in-units.ts';
import { judge } from '../../src/steps/judge.ts';
import { recordsBy } from '../../src/store/record-lookup.ts';
import { Store } from '../../src/store/store.ts';
import { riseRateText } from '../../src/units/display.ts';

const folder = mkdtempSync(join(tmpdir(), 'dryhold-evidence-'));
let store: Store;
let inUnits: InUnits<JobEvidence>[];
let jobs: JobEvidence[];
let facts: Map<string, Facts[]>;

const options = {
  policyId: 'as-recorded',
  names: {
    technician: (id: string | null | undefined) => id ?? '',
    crew: (id: string) => id,
  },
} as const;

beforeAll(async () => {
  await writeBundle(simulateFleet({ jobs: 120, seed: 11 }), join(folder, 'bundle'));
  store = await Store.open(join(folder, 'store'), 'write');
  await ingest(store, [join(folder, 'bundle')]);
  await judge(store);
  await store.run('CREATE OR REPLACE TEMP TABLE wanted AS SELECT job_id FROM jobs ORDER BY job_id');
  inUnits = await jobEvidence(store, 'wanted', options);
  jobs = inUnits.map((job) => job('ip'));
  facts = await recordsBy<Facts>(store, factsTable, 'job_id', 'temp.wanted');
}, 60_000);

afterAll(async () => {
  await store.close();
  rmSync(folder, { recursive: true });
});

/** The fitted pressure at a time since valve-off; past its last point, where rounding may lead, that point's. */
function fittedAt({ sinceS, fittedPa }: FittedRise, atS: number): number {
  const after = sinceS.findIndex((since) => since >= atS);
  if (after === -1) return fittedPa.at(-1) ?? 0;
  if (after === 0) return fittedPa[0] ?? 0;
  const [fromS, toS] = [sinceS[after - 1] ?? 0, sinceS[after] ?? 0];
  const share = (atS - fromS) / (toS - fromS);
  return (fittedPa[after - 1] ?? 0) * (1 - share) + (fittedPa[after] ?? 0) * share;
}

const fittedJobs = () => jobs.flatMap((job) => (job.fitted === null ? [] : [{ ...job, fitted: job.fitted }]));

describe('the fitted curve', () => {
  test('is there wherever the facts have a fit, and nowhere else', () => {
    const withFit = jobs.filter(({ jobId }) => facts.get(jobId)?.[0]?.leak_pa_per_s !== undefined);
    expect(withFit.length).toBeGreaterThan(50);
    expect(fittedJobs().map(({ jobId }) => jobId)).toEqual(withFit.map(({ jobId }) => jobId));
  });

  test('rises by what the facts say the parts add up to', () => {
    let compared = 0;
    for (const { jobId, fitted } of fittedJobs()) {
      const {
        leak_pa_per_s: leak = 0,
        leak_rise_pa: leakRise = 0,
        vapour_rise_pa,
        settling_rise_pa,
      } = facts.get(jobId)?.[0] ?? {};
      if (leak === 0) continue;
      const parts = leakRise + (vapour_rise_pa ?? 0) + (settling_rise_pa ?? 0);
      const risen = fittedAt(fitted, leakRise / leak) - (fitted.fittedPa[0] ?? 0);
      // Between two points of the curve a straight line.
      expect([jobId, Math.abs(risen / parts - 1) < 0.005]).toEqual([jobId, true]);
      compared += 1;
    }
    expect(compared).toBeGreaterThan(20);
  });

  test('goes through the readings', () => {
    const apart = fittedJobs().map(({ fitted, trace, isolation }) => {
      const [startS, endS] = [isolation?.startS ?? 0, fitted.sinceS.at(-1) ?? 0];
      const ratios = (trace?.elapsedS ?? []).flatMap((elapsedS, index) => {
        const pa = trace?.vacuumPa[index] ?? null;
        const since = elapsedS - startS;
        return pa === null || since < 5 || since > endS ? [] : [pa / fittedAt(fitted, since) - 1];
      });
      return Math.abs(ratios.reduce((sum, ratio) => sum + ratio, 0) / ratios.length);
    });
    // Gauges of the simulation scatter by some 0.5 %; at a few Pa their steps are as much as a tenth.
    expect(apart.toSorted((a, b) => a - b)[Math.floor(0.9 * apart.length)]).toBeLessThan(0.005);
    expect(Math.max(...apart)).toBeLessThan(0.05);
  });
});

test('every job has its story, and a job that was not measured has none', async () => {
  for (const { jobId, story } of jobs) {
    expect([jobId, story.length > 0]).toEqual([jobId, true]);
    expect(story.join(' ')).not.toMatch(/undefined|NaN|Infinity|\bsafe\b/);
  }
  await store.run(`CREATE OR REPLACE TEMP TABLE one AS SELECT '${jobs[0]?.jobId}' AS job_id`);
  await store.run(`DELETE FROM facts WHERE job_id = '${jobs[0]?.jobId}'`);
  const [unmeasured] = (await jobEvidence(store, 'one', options)).map((job) => job('ip'));
  expect(unmeasured).toMatchObject({ story: [], isolation: null, fitted: null, stall: null, valveOff: null });
  expect(unmeasured?.pressureTest ?? { judged: null, corrected: null }).toMatchObject({
    judged: null,
    corrected: null,
  });
  expect(unmeasured?.trace).not.toBeNull();
  expect(unmeasured?.phases).toEqual(jobs[0]?.phases);
});

test('texts go with the units, recordings do not', () => {
  const said = (job: JobEvidence) => [...job.story, ...job.findings.map(({ text }) => text)].join(' ');
  for (const [at, { trace, pressureTest, scale, run, ...job }] of inUnits.map((one) => one('si')).entries()) {
    expect({ trace, pressureTest, scale, run }).toEqual({
      trace: jobs[at].trace,
      pressureTest: jobs[at].pressureTest,
      scale: jobs[at].scale,
      run: jobs[at].run,
    });
    expect(said(inUnits[at]('si'))).not.toMatch(/\d (psi|microns)/);
    expect(job.findings.map(({ checkId }) => checkId)).toEqual(jobs[at].findings.map(({ checkId }) => checkId));
  }
  expect(jobs.map(said).join(' ')).toMatch(/psi/);
});

test('a valve-off is given with its range only where it is not sharp', () => {
  const ranges = jobs.flatMap(({ valveOff }) => (valveOff === null ? [] : [valveOff.highS - valveOff.lowS]));
  expect(ranges.length).toBeGreaterThan(5);
  expect(Math.min(...ranges)).toBeGreaterThan(15);
  expect(ranges.length).toBeLessThan(fittedJobs().length);
});

describe('the pressure test', () => {
  const tested = () =>
    jobs.flatMap(({ jobId, pressureTest }) => {
      const known = facts.get(jobId)?.[0];
      return pressureTest === null || known === undefined ? [] : [{ jobId, known, ...pressureTest }];
    });

  test('is there wherever the facts have readings of one, in few readings from 0 on', () => {
    const read = jobs.filter(({ jobId }) => (facts.get(jobId)?.[0]?.pressure_readings ?? 0) > 0);
    expect(read.length).toBeGreaterThan(50);
    expect(tested().map(({ jobId }) => jobId)).toEqual(read.map(({ jobId }) => jobId));
    for (const { jobId, trace } of tested()) {
      expect([jobId, trace.elapsedS.length <= 404, trace.elapsedS[0]]).toEqual([jobId, true, 0]);
      expect(trace.elapsedS).toEqual(trace.elapsedS.toSorted((a, b) => a - b));
      expect(trace.testPa).toHaveLength(trace.elapsedS.length);
    }
  });

  test('has the holds that the facts count, and the judged one among them', () => {
    for (const { jobId, known, holds, judged } of tested()) {
      expect([jobId, holds.length]).toEqual([jobId, known.pressure_stages ?? 0]);
      if (judged === null) expect(known.pressure_hold_start_s).toBeUndefined();
      else expect(holds).toContainEqual({ startS: judged.startS, endS: judged.endS });
    }
  });

  test('has temperature taken out wherever there is a corrected drop, and then falls by that drop', () => {
    let compared = 0;
    for (const { jobId, known, corrected, drop, limits } of tested()) {
      expect([jobId, corrected === null]).toEqual([jobId, known.pressure_drop_pa === undefined]);
      expect([jobId, drop === null]).toEqual([jobId, corrected === null]);
      expect(limits.map(({ label }) => label)).toContain('target');
      if (corrected === null || drop === null) continue;
      const { elapsedS, besidePa } = corrected;
      const [fromS] = elapsedS;
      const lengthS = (known.pressure_hold_end_s ?? 0) - (known.pressure_settled_s ?? 0);
      // On average they lie on the line that the drop is the end of.
      const off = besidePa.map((pa, index) => pa + (drop.pa * (elapsedS[index] - fromS)) / lengthS);
      const mean = off.reduce((sum, pa) => sum + pa, 0) / off.length;
      expect([jobId, Math.abs(mean) < 0.2 * (drop.highPa - drop.lowPa)]).toEqual([jobId, true]);
      compared += 1;
    }
    expect(compared).toBeGreaterThan(20);
  });

  test('leaves the vacuum its own clock, though it stood for hours before', () => {
    const after = jobs.filter(({ pressureTest, trace }) => pressureTest !== null && trace !== null);
    expect(after.length).toBeGreaterThan(50);
    for (const { jobId, trace, phases, isolation } of after) {
      expect([jobId, trace?.elapsedS[0]]).toEqual([jobId, 0]);
      for (const { startS, endS } of phases)
        expect([jobId, startS >= 0, endS <= 12 * 3600]).toEqual([jobId, true, true]);
      if (isolation !== null) expect(phases).toContainEqual(isolation);
    }
  });
});

describe('weigh-in and run', () => {
  const known = (jobId: string): Partial<Facts> => facts.get(jobId)?.[0] ?? {};

  test('are there wherever the facts have readings of them, from 0 on, in few readings', () => {
    const weighed = jobs.filter(({ jobId }) => (known(jobId).scale_readings ?? 0) > 0);
    const ran = jobs.filter(({ jobId }) => (known(jobId).run_readings ?? 0) > 0);
    expect([weighed.length > 30, ran.length > 30]).toEqual([true, true]);
    expect(jobs.filter(({ scale }) => scale !== null)).toEqual(weighed);
    expect(jobs.filter(({ run }) => run !== null)).toEqual(ran);
    for (const { jobId, scale, run } of jobs)
      for (const { elapsedS } of [scale?.read, scale?.corrected, run?.trace].filter((trace) => trace !== undefined))
        expect([jobId, elapsedS[0] < 60, elapsedS.length <= 300]).toEqual([jobId, true, true]);
  });

  test('tell the mass, the moves, superheat and subcooling that the facts tell', () => {
    for (const { jobId, scale, run } of jobs) {
      const { scale_drop_kg: dropKg, scale_shifts: shifts, superheat_k: superheatK, subcooling_k } = known(jobId);
      expect([jobId, scale?.flow?.kg]).toEqual([jobId, dropKg]);
      if (shifts !== undefined) expect(scale?.moves.filter(({ isFlow }) => !isFlow)).toHaveLength(shifts);
      expect([jobId, run?.superheat?.k, run?.subcooling?.k]).toEqual([jobId, superheatK, subcooling_k]);
      if (run?.superheat) expect(run.superheat.lineK - run.superheat.saturationK).toBeCloseTo(run.superheat.k, 6);
    }
  });

  test('draw between stands what the facts say flowed', () => {
    const flows = jobs.flatMap(({ scale }) =>
      scale === null || scale.flow === null ? [] : [{ ...scale, ...scale.flow }],
    );
    expect(flows.length).toBeGreaterThan(30);
    for (const { corrected, kg, lowKg, highKg } of flows) {
      expect([lowKg <= kg, kg <= highKg]).toEqual([true, true]);
      // A single reading scatters more than the mean of a stand.
      expect(Math.abs((corrected.drawnKg.at(-1) ?? 0) - kg)).toBeLessThan(0.06);
    }
  });
});

test('the story knows who set the target and the length of a pressure test', () => {
  const from = (target: string | undefined, asked: string) => {
    const { testTargetFrom, standFrom } = storyLimits(
      new Map<string, Evidence>([
        ['test-pressure-not-reached', { target_test_pa: 3e6, target_source: target }],
        ['pressure-test-short', { asked_s: 900, asked_source: asked }],
      ]),
      66,
    );
    return [testTargetFrom, standFrom];
  };
  expect(from('record', 'common-practice')).toEqual(['record', 'practice']);
  expect(from(undefined, 'ashrae-15-1994')).toEqual([undefined, 'policy']);
});

test('every judgement says what it could not have seen, with the figures of its own job', () => {
  const findings = jobs.flatMap((job) => job.findings);
  const isJudged = (outcome: string) => outcome === 'pass' || outcome === 'suspect' || outcome === 'fail';
  expect(findings.length).toBeGreaterThan(1000);
  for (const { checkId, outcome, unseen } of findings)
    expect([checkId, outcome, unseen !== '']).toEqual([checkId, outcome, isJudged(outcome)]);
  const climbs = jobs.flatMap(({ jobId, findings: found }) => {
    const least = facts.get(jobId)?.[0]?.smallest_rise_seen_pa_per_s;
    const leaking = found.find(({ checkId, outcome }) => checkId === 'leaking' && outcome === 'pass');
    return least === undefined || leaking === undefined ? [] : [{ least, unseen: leaking.unseen }];
  });
  expect(climbs.length).toBeGreaterThan(10);
  for (const { least, unseen } of climbs)
    expect(unseen).toContain(`a steady climb of less than ${riseRateText(least, 'ip')}`);
});
