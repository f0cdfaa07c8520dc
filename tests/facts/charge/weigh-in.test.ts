import { describe, expect, test } from 'vitest';
import { massProblem } from '../../../src/facts/charge/mass-problem.ts';
import { scaleFacts } from '../../../src/facts/charge/scale-facts.ts';
import { drawnMass } from '../../../src/facts/charge/weigh-in.ts';
import type { Facts } from '../../../src/records/tables/facts.ts';
import type { Job } from '../../../src/records/tables/jobs.ts';
import type { Weighing } from '../../../src/records/tables/weighings.ts';
import { ScaleLog } from '../../traces/scale-log.ts';

function records(job: Partial<Job>, weighings: Partial<Weighing>[] = []) {
  return {
    jobId: 'j1',
    job: { job_id: 'j1', started_at: '2026-03-05T14:30:00+01:00', scale_step_kg: 0.005, ...job },
    lineSets: [],
    weighings: weighings.map((weighing, index) => ({ weighing_id: String(index), ...weighing })),
  };
}

const logged = scaleFacts(new ScaleLog(9.5).run(60).run(40, 0.4).run(60).series(), 0.005);

describe('what left the cylinder', () => {
  test('by the log of the scale alone', () => {
    const drawn = drawnMass(records({}), logged);
    expect(drawn?.kg).toBeCloseTo(0.4, 2);
    expect(drawn).toMatchObject({ from: 'scale' });
    expect(drawn?.uncertaintyKg).toBeLessThan(0.005);
  });

  test('by log and written figure together, where they agree', () => {
    const drawn = drawnMass(records({ weighed_in_kg: 0.405 }), logged);
    expect(drawn).toMatchObject({ from: 'scale', enteredKg: 0.405 });
    expect(drawn?.kg).toBeGreaterThan(0.399);
    expect(drawn?.kg).toBeLessThan(0.406);
  });

  test('weighings go before the figure of the record', () => {
    const weighings: Partial<Weighing>[] = [{ direction: 'in', start_kg: 9.5, end_kg: 9.1 }];
    expect(drawnMass(records({ weighed_in_kg: 0.5 }, weighings), {})).toMatchObject({ from: 'weighings' });
    expect(drawnMass(records({ weighed_in_kg: 0.5 }), {})).toMatchObject({ kg: 0.5, from: 'record' });
    expect(drawnMass(records({}), {})).toBeUndefined();
  });

  test('a written figure that is far off does not sway an undisturbed log, but makes it less sure', () => {
    const drawn = drawnMass(records({ weighed_in_kg: 0.7 }), logged);
    expect(drawn?.from).toBe('scale');
    expect(drawn?.kg).toBeCloseTo(0.4, 2);
    expect(drawn?.uncertaintyKg).toBeGreaterThan(0.05);
  });

  test('a written figure goes before the log of a scale that was moved', () => {
    const moved: Partial<Facts> = { ...logged, scale_shifts: 2 };
    expect(drawnMass(records({ weighed_in_kg: 0.7 }), moved)).toMatchObject({ kg: 0.7, from: 'record' });
  });

  test('a doubtful step counts only where the written figure has it', () => {
    const log = new ScaleLog(9.5, { intervalS: 5 }).run(60).run(40, 0.4).run(30).shift(-0.06).run(60);
    const stepped = scaleFacts(log.series(), 0.005);
    expect(stepped.scale_doubtful).toBeDefined();
    expect(drawnMass(records({ weighed_in_kg: 0.46 }), stepped)?.kg).toBeCloseTo(0.46, 2);
    expect(drawnMass(records({ weighed_in_kg: 0.4 }), stepped)?.kg).toBeCloseTo(0.4, 2);
  });

  test('a log that begins or ends in the midst of the flow leaves it to the written figure', () => {
    const cut = scaleFacts(new ScaleLog(9.5).run(60).run(40, 0.4).series(), 0.005);
    expect(cut.scale_problem).toBe('cut');
    expect(drawnMass(records({ weighed_in_kg: 0.4 }), cut)).toMatchObject({ kg: 0.4, from: 'record' });
  });
});

describe('what cannot be is named', () => {
  const noResidual = { kg: 0, lowKg: 0, highKg: 0, basis: 'recorded' } as const;

  test('grams, and a cylinder heavier than any', () => {
    const grams = scaleFacts(new ScaleLog(9500, { stepKg: 5 }).run(60).run(40, 400).run(60).series(), undefined);
    expect(grams.scale_problem).toBe('unit');
  });

  test.each([
    ['pounds for kilograms', 0.882, 0.4, 'scale-unit'],
    ['ounces', 14.11, 0.4, 'scale-unit'],
    ['grams', 400, 0.4, 'scale-unit'],
    ['the same unit', 0.41, 0.4, undefined],
  ] as const)('%s', (_, seriesKg, enteredKg, problem) => {
    const drawn = { kg: seriesKg, uncertaintyKg: 0.003, from: 'scale', seriesKg, enteredKg } as const;
    expect(massProblem(drawn, noResidual, {}, 1000)).toBe(problem);
  });

  test('less than nothing, or many times what the system takes', () => {
    const drawn = (kg: number) => ({ kg, uncertaintyKg: 0.003, from: 'weighings' }) as const;
    expect([drawn(-0.2), drawn(9), drawn(2)].map((one) => massProblem(one, noResidual, {}, 1.2))).toEqual([
      'absurd-mass',
      'absurd-mass',
      undefined,
    ]);
  });

  test('more in the hoses than was drawn, beyond what the scale explains', () => {
    const drawn = { kg: 0.03, uncertaintyKg: 0.003, from: 'record' } as const;
    const problems = [0.041, 0.043].map((kg) => massProblem(drawn, { ...noResidual, kg }, {}, 1.2));
    expect(problems).toEqual([undefined, 'absurd-residual']);
  });

  test('a handful of readings', () => {
    expect(scaleFacts(new ScaleLog(9.5).run(5).series(), 0.005)).toEqual({
      scale_readings: 5,
      scale_problem: 'too-few-readings',
    });
  });
});
