import { describe, expect, test } from 'vitest';
import { runTestFacts } from '../../../src/facts/run-test/run-test-facts.ts';
import type { Job } from '../../../src/records/tables/jobs.ts';
import { jobOf, pressuresOf, type RunLog, runLog } from './run-log.ts';

const factsOf = (log: RunLog, record: Partial<Job> = {}, changedS?: number) =>
  runTestFacts(runLog(log), { job: jobOf(record) }, changedS);
const problemOf = (log: RunLog, record: Partial<Job> = {}, changedS?: number) =>
  factsOf(log, record, changedS).run_problem;

describe('why a run is not judged', () => {
  test('nothing was logged, or no run in what was', () => {
    expect(runTestFacts(undefined, { job: jobOf() })).toEqual({});
    expect(problemOf({ columns: { compressor_w: () => 20 } })).toBe('not-running');
    expect(problemOf({ columns: { compressor_w: undefined, liquid_pa: undefined } })).toBe('run-unseen');
    expect(problemOf({})).toBeUndefined();
  });

  test('metered outdoors and without power, equal pressures are no sign that it stood', () => {
    const columns = { ...pressuresOf('R-410A', 5, 5), compressor_w: undefined };
    expect(problemOf({ columns })).toBe('not-running');
    expect(problemOf({ columns }, { metering_location: 'outdoor' })).toBe('run-unseen');
  });

  test('no pressure, or a refrigerant that nobody knows', () => {
    expect(problemOf({ columns: { suction_pa: undefined, liquid_pa: undefined } })).toBe('no-suction');
    expect(problemOf({}, { refrigerant: 'R-999' })).toBe('unknown-refrigerant');
    expect(problemOf({}, { refrigerant: undefined })).toBe('unknown-refrigerant');
  });

  test('under a quarter of an hour, from the start or from the last change of the charge', () => {
    expect(problemOf({ runS: 895 })).toBe('short');
    expect(problemOf({ runS: 900 })).toBeUndefined();
    // The log begins 120 s before the start.
    expect(problemOf({ runS: 1800 }, {}, 120 + 905)).toBe('short');
    expect(problemOf({ runS: 1800 }, {}, 120 + 900)).toBeUndefined();
  });

  test('how long it ran since the charge was changed: nothing, where it was changed afterwards', () => {
    expect(factsOf({ runS: 1800 }, {}, 120 + 1500)).toMatchObject({ run_s: 1800, run_since_change_s: 300 });
    expect(factsOf({ runS: 1800 }, {}, 4000)).toMatchObject({ run_problem: 'short', run_since_change_s: 0 });
    expect(factsOf({ runS: 1800 }, {}, 60)).not.toHaveProperty('run_since_change_s');
  });

  test('it never stood still', () => {
    const ramp = (sinceS: number) => 12 + sinceS / 100;
    expect(problemOf({ columns: { suction_line_c: ramp } })).toBe('not-steady');
    const hunting = (sinceS: number) => 12 + 2 * Math.sin(sinceS / 12);
    expect(problemOf({ columns: { suction_line_c: hunting } })).toBeUndefined();
  });

  test('what stood still before a quarter of an hour does not count', () => {
    const line = (sinceS: number) => (sinceS < 700 ? 12 : 12 + (sinceS - 700) / 20);
    expect(problemOf({ columns: { suction_line_c: line } })).toBe('not-steady');
  });

  test('the last steady window is what judges, and after a stop the last run', () => {
    const trimmed = factsOf({ runS: 3600, columns: { suction_line_c: (s) => (s < 1500 ? 20 : 12) } }, {}, 120 + 1500);
    expect(trimmed.superheat_k).toBeCloseTo(7, 1);
    const power = (s: number) => (s < 0 || (s > 1200 && s < 1500) ? 0 : 2000);
    expect(factsOf({ runS: 3000, columns: { compressor_w: power } })).toMatchObject({
      run_start_s: 120 + 1500,
      run_s: 1500,
      steady_end_s: 120 + 3000,
    });
  });

  test('heating or defrosting for more than a tenth of it', () => {
    const mode = (name: 'heating' | 'defrost', toS: number) => (s: number) =>
      s < 0 ? undefined : s < toS ? name : 'cooling';
    expect(problemOf({ mode: mode('heating', 1800) })).toBe('heating');
    expect(problemOf({ mode: mode('defrost', 300) })).toBe('heating');
    expect(problemOf({ mode: mode('defrost', 100) })).toBeUndefined();
  });

  test('columns that were swapped', () => {
    const { suction_pa: liquid_pa, liquid_pa: suction_pa } = pressuresOf('R-410A', 5, 40);
    expect(problemOf({ columns: { suction_pa, liquid_pa } })).toBe('swapped');
  });

  test('by the minute it is the same run', () => {
    const facts = factsOf({ intervalS: 60 });
    expect(facts).toMatchObject({ run_s: 1800, steady_end_s: 1920 });
    expect(facts.superheat_k).toBeCloseTo(7, 1);
  });
});

describe('readings that cannot be', () => {
  const fell = (fromC: number, toC: number) => (sinceS: number) =>
    sinceS < 0 ? fromC : toC + (fromC - toC) * Math.exp(-sinceS / 120);

  test('a clamp that hung in the air from the start', () => {
    // Suction at 5 °C under air of 25 °C, liquid that boils at 45 °C under air of 30 °C.
    expect(problemOf({ restS: 600, columns: { suction_line_c: 25.3 } })).toBe('clamp-off');
    const columns = { ...pressuresOf('R-410A', 5, 45), liquid_line_c: 30.2 };
    expect(problemOf({ restS: 600, columns })).toBe('clamp-off');
  });

  test('a pipe that came to be as warm as the air is one', () => {
    // 20 K of superheat: starved, and the line goes with it.
    expect(problemOf({ restS: 600, columns: { suction_line_c: fell(30, 25) } })).toBeUndefined();
  });

  test('a clamp that was always far from the air is on something', () => {
    expect(problemOf({ restS: 600, columns: { suction_line_c: 20 } })).toBeUndefined();
  });

  test('a clamp that came off on the way, on rows of its own or not', () => {
    const cameOff = (s: number) => (s < 700 ? 12 : 25 - 13 * Math.exp((700 - s) / 20));
    expect(problemOf({ columns: { suction_line_c: cameOff } })).toBe('clamp-off');
    const own = (course: (s: number) => number, odd: boolean) => (s: number) =>
      (s % 10 === 0) === odd ? Number.NaN : course(s);
    const { suction_pa } = pressuresOf('R-410A', 5, 40);
    const columns = { suction_line_c: own(cameOff, true), suction_pa: own(() => suction_pa, false) };
    expect(problemOf({ columns })).toBe('clamp-off');
  });

  test('a line that warms together with its pressure is no clamp that came off', () => {
    const starved = (s: number) => (s < 700 ? 12 : 25 - 13 * Math.exp((700 - s) / 20));
    const { suction_pa } = pressuresOf('R-410A', 5, 40);
    const fallen = (s: number) => (s < 700 ? suction_pa : suction_pa * (0.8 + 0.2 * Math.exp((700 - s) / 20)));
    expect(problemOf({ columns: { suction_line_c: starved, suction_pa: fallen } })).toBeUndefined();
  });

  test('a log of two days at one reading a second is looked through as well', () => {
    const log = { restS: 172_000, runS: 1200, intervalS: 1, columns: { suction_line_c: 25.3 } };
    expect(problemOf(log)).toBe('clamp-off');
  });

  test('lines on the wrong side of saturation, just beyond what clamps leave open', () => {
    expect(problemOf({ columns: { suction_line_c: 1.8 } })).toBe('below-dew');
    expect(problemOf({ columns: { suction_line_c: 2.1 } })).toBeUndefined();
    expect(problemOf({ columns: { liquid_line_c: 43.1 } })).toBe('below-dew');
    expect(problemOf({ columns: { liquid_line_c: 42.9 } })).toBeUndefined();
    expect(problemOf({ columns: { liquid_line_c: 43.1 } }, { metering_location: 'outdoor' })).toBeUndefined();
  });

  test('what was read stands, superheat and subcooling do not', () => {
    const facts = factsOf({ columns: { suction_line_c: 1 } });
    expect(facts.run_suction_line_k).toBeCloseTo(274.15, 6);
    expect(facts).not.toHaveProperty('superheat_k');
    expect(facts).not.toHaveProperty('subcooling_k');
  });
});

test('liquid in the suction line of a blend is as cold as its bubble point, and no clamp is blamed for it', () => {
  // R-407C: some 6 K of glide.
  const flooded = (suctionLineC: number) =>
    problemOf(
      { columns: { ...pressuresOf('R-407C', 5, 40), suction_line_c: suctionLineC } },
      { refrigerant: 'R-407C' },
    );
  expect(flooded(-1)).toBeUndefined();
  expect(flooded(-6)).toBe('below-dew');
});
