import { z } from 'zod';
import { check, limit } from '../check.ts';
import { riseCourse } from '../rise-course.ts';
import { riseLimits } from '../rise-limits.ts';
import { isolationOrProblem, riseExamples, riseMessages } from '../rise-problem.ts';

// 70 °F: water levels at 2505 Pa, 18 790 µm (IAPWS).
const warm = {
  vacuum_readings: 900,
  isolation_start_s: 1200,
  isolation_end_s: 2400,
  isolation_pa: 33.33,
  line_low_k: 294.26,
  water_vapour_pa: 2505,
};
const levels = (plateau_pa: number, plateau_low_pa: number, plateau_high_pa: number, isolation_end_pa: number) => ({
  ...warm,
  rise_shape: 'moisture' as const,
  plateau_pa,
  plateau_low_pa,
  plateau_high_pa,
  isolation_end_pa,
});
const shape = (rise_shape: 'dry' | 'leak' | 'moisture' | 'undecided', isolation_end_pa: number) => ({
  ...warm,
  rise_shape,
  isolation_end_pa,
});

const thermal = 'A thermal gauge reads vapour wrongly, so take the level as a rough one.';
const water = 'free water or ice at {line_low_k} levels at {water_vapour_pa}';

/** Whether the rise tells of water in the system. */
export const wet = check({
  id: 'wet',
  group: 'rise',
  gear: ['pump', 'hose-set', 'gauge'],
  revisit: 'moisture',
  question: 'Does the rise after valve-off tell of water?',
  needs: ['rise_shape', 'water_vapour_pa', 'plateau_pa'],
  limits: {
    limit_pa: riseLimits.limit_pa,
    kind: riseLimits.kind,
    near_factor: limit({
      description:
        'Water whose vapour pressure is less than this many times the allowed level could hide below it; and a level counts as that of water only where it is known within this factor',
      schema: z.number().min(1).max(100),
      default: 2,
      source: 'common-practice',
    }),
  },
  messages: {
    ...riseMessages,
    'no-line-temperature':
      'The temperature of the pipe was not logged, so nothing says at what pressure water would level: a cold pipe hides ice.',
    'too-cold': `The pipe is too cold to tell: ${water}, too near the {level_pa} allowed.`,
    'free-water': `The rise {course} {plateau_pa} ({plateau_low_pa} to {plateau_high_pa}), and ${water}: there is water in the system. ${thermal}`,
    'more-than-water': `The rise {course} {plateau_pa} ({plateau_low_pa} to {plateau_high_pa}), above what water can: ${water}. Look for refrigerant coming out of oil, a leak, or a gauge off its range. ${thermal}`,
    desorption: `The rise {course} {plateau_pa}, over the {level_pa} allowed; ${water}, so, unless ice or a colder spot holds it there, this is water given off by walls and oil, a few milligrams of it, or outgassing. ${thermal}`,
    'levels-within': `The rise {course} {plateau_pa}, within the {level_pa} allowed; ${water}. Walls and oil always give off so much. ${thermal}`,
    'over-its-level': `The rise {course} {plateau_pa}, within the {level_pa} allowed, and yet it had reached {isolation_end_pa}; ${water}. ${thermal}`,
    'slackens-over': `The rise slackened, reached {isolation_end_pa}, over the {level_pa} allowed, and where it would level is not known; ${water}. Moisture or outgassing. ${thermal}`,
    'slackens-within': `The rise slackened and ended at {isolation_end_pa}, within the {level_pa} allowed, but where it would level is not known, so free water is not ruled out; ${water}.`,
    undecided: 'The curve does not tell moisture or outgassing from a leak, so nothing is said of water.',
    steady:
      'The rise is steady, as with a leak; water in a dead end may come as steadily, so nothing is said of water.',
    'over-range':
      'The pressure went above the gauge’s range after valve-off, so not all of the rise shows, and nothing is said of water.',
    none: `Nothing in the rise slackened as it does with water, in {isolation_s}; ${water}.`,
    'not-fitted': 'The isolation does not have the readings that it takes to tell the shape of its rise.',
  },
  teach:
    'Water levels where its vapour pressure is, and that depends on the coldest spot alone: log the temperature of the pipe. Break with dry nitrogen, warm the cold spots, change the pump oil, pull again and hold longer. Do not hurry a wet system below 4 600 µm (612 Pa): the water freezes, and ice goes slowly.',
  references: ['iapws-r14-08', 'iapws-sr1-86', 'common-practice'],
  examples: [
    {
      name: 'levels at the vapour pressure',
      facts: levels(2450, 2300, 2600, 2300),
      outcome: 'fail',
      message: 'free-water',
    },
    {
      name: 'levels near it by a gauge good to 15 %',
      facts: levels(2200, 1870, 2530, 2100),
      outcome: 'fail',
      message: 'free-water',
    },
    { name: 'levels above it', facts: levels(3500, 3300, 3700, 3200), outcome: 'suspect', message: 'more-than-water' },
    {
      name: 'levels at 1 500 µm in a warm room: not free water',
      facts: levels(200, 190, 215, 190),
      outcome: 'suspect',
      message: 'desorption',
    },
    {
      name: 'levels at 400 µm of 500 µm allowed',
      facts: levels(53.3, 50, 60, 52),
      outcome: 'pass',
      message: 'levels-within',
    },
    {
      name: 'five minutes of a slow rise, over the limit: it may level anywhere',
      facts: levels(900, 120, 20000, 90),
      outcome: 'suspect',
      message: 'slackens-over',
    },
    {
      name: 'five minutes of a slow rise, within the limit: it may level anywhere',
      facts: levels(900, 70, 20000, 50),
      outcome: 'not-evaluated',
      message: 'slackens-within',
    },
    {
      name: 'slackens like outgassing, without a level',
      facts: shape('moisture', 90),
      outcome: 'suspect',
      message: 'slackens-over',
    },
    {
      name: 'at 0 °F the ice levels at 957 µm, near the 500 µm allowed',
      facts: { ...shape('dry', 36), line_low_k: 255.37, water_vapour_pa: 127.5 },
      outcome: 'not-evaluated',
      message: 'too-cold',
    },
    {
      name: 'no clamp on the pipe',
      facts: { ...shape('dry', 36), line_low_k: undefined, water_vapour_pa: undefined },
      outcome: 'not-evaluated',
      message: 'no-line-temperature',
    },
    {
      name: 'cannot be told from a leak',
      facts: shape('undecided', 90),
      outcome: 'not-evaluated',
      message: 'undecided',
    },
    {
      name: 'a steady rise',
      facts: shape('leak', 90),
      outcome: 'not-evaluated',
      message: 'steady',
    },
    {
      name: 'levels at 400 µm of 500 µm allowed, but for a leak that took it over that',
      facts: { ...levels(53.3, 50, 60, 80), rise_shape: 'mixed', leak_pa_per_s: 0.02 },
      outcome: 'suspect',
      message: 'over-its-level',
    },
    {
      name: 'flat as far as it shows, then above the range of the gauge',
      facts: { ...shape('dry', 36), isolation_over: true },
      outcome: 'not-evaluated',
      message: 'over-range',
    },
    { name: 'next to nothing', facts: shape('dry', 36), outcome: 'pass', message: 'none' },
    {
      name: 'three readings',
      facts: { ...warm, isolation_end_s: 1206 },
      outcome: 'not-evaluated',
      message: 'not-fitted',
    },
    ...riseExamples,
  ],
  judge(facts, { limit_pa, kind, near_factor }) {
    const isolation = isolationOrProblem(facts);
    if ('problem' in isolation) return isolation.problem;
    const { rise_shape, isolation_pa, isolation_end_pa, line_low_k, water_vapour_pa: waterPa } = facts;
    const { plateau_pa, plateau_low_pa, plateau_high_pa } = facts;
    const known = {
      isolation_s: isolation.isolationS,
      rise_shape,
      isolation_end_pa,
      plateau_pa,
      plateau_low_pa,
      plateau_high_pa,
      line_low_k,
      water_vapour_pa: waterPa,
    };
    if (rise_shape === undefined || isolation_pa === undefined || isolation_end_pa === undefined)
      return { outcome: 'not-evaluated', message: 'not-fitted', evidence: known };
    if (line_low_k === undefined || waterPa === undefined)
      return { outcome: 'not-evaluated', message: 'no-line-temperature', evidence: known };
    const level_pa = kind.value === 'level' ? limit_pa.value : isolation_pa + limit_pa.value;
    const evidence = {
      ...known,
      course: riseCourse(facts),
      level_pa,
      limit_kind: kind.value,
      limit_source: limit_pa.source,
    };
    if (waterPa < near_factor.value * level_pa) return { outcome: 'not-evaluated', message: 'too-cold', evidence };
    if (rise_shape === 'undecided') return { outcome: 'not-evaluated', message: 'undecided', evidence };
    if (rise_shape === 'leak') return { outcome: 'not-evaluated', message: 'steady', evidence };
    if (rise_shape !== 'moisture' && rise_shape !== 'mixed')
      return facts.isolation_over
        ? { outcome: 'not-evaluated', message: 'over-range', evidence }
        : { outcome: 'pass', message: 'none', evidence };

    const lowPa = plateau_low_pa ?? 0;
    const highPa = plateau_high_pa ?? Number.POSITIVE_INFINITY;
    const result = { value: plateau_pa ?? isolation_end_pa, limit: waterPa, unit: 'Pa' as const, evidence };
    if (plateau_pa !== undefined && lowPa > waterPa)
      return { ...result, outcome: 'suspect', message: 'more-than-water' };
    if (plateau_pa === undefined || (highPa >= waterPa && lowPa * near_factor.value < waterPa)) {
      const isOver = isolation_end_pa > level_pa;
      return isOver
        ? { ...result, outcome: 'suspect', message: 'slackens-over' }
        : { ...result, outcome: 'not-evaluated', message: 'slackens-within' };
    }
    if (highPa >= waterPa) return { ...result, outcome: 'fail', message: 'free-water' };
    const against = { ...result, limit: level_pa };
    if (plateau_pa > level_pa) return { ...against, outcome: 'suspect', message: 'desorption' };
    if (isolation_end_pa > level_pa) return { ...against, outcome: 'suspect', message: 'over-its-level' };
    return facts.isolation_over
      ? { ...against, outcome: 'not-evaluated', message: 'over-range' }
      : { ...against, outcome: 'pass', message: 'levels-within' };
  },
});
