import { describe, expect, test } from 'vitest';
import { backwardJump } from '../../../src/facts/recording/clock-back.ts';
import { forwardJump } from '../../../src/facts/recording/clock-forward.ts';
import { gapFacts } from '../../../src/facts/recording/gap-facts.ts';
import { noisy, pulled, recorded } from './recorded.ts';

/** Times of a log that leaves out what lies between two times [s]. */
const leaving = (fromS: number, toS: number, everyS = 2) => ({
  atS: (index: number) => (index * everyS < fromS ? index * everyS : index * everyS + toS - fromS),
});
const tested = { isolation_start_s: 100, isolation_end_s: 700 };

describe('gapFacts', () => {
  test('tells the longest gap, its share of the stretch, and the usual interval beside it', () => {
    const log = recorded('vacuum_pa', () => 40, leaving(300, 450));
    const facts = gapFacts([log], tested);
    expect(facts).toMatchObject({ gap_phase: 'rise test', gap_count: 1, gap_usual_s: 2, gap_start_s: 298 });
    expect(facts.gap_longest_s).toBeCloseTo(152, 6);
    expect(facts.gap_hidden_ratio).toBeCloseTo(152 / 600, 6);
  });

  test('a log that is coarse throughout has no gap', () => {
    const log = recorded('vacuum_pa', () => 40, { everyS: 60, readings: 20 });
    expect(gapFacts([log], tested)).toEqual({ gap_phases: 'rise test' });
  });

  test('a gap between the stretches is none, and of one across a border only what lies within counts', () => {
    const before = recorded('vacuum_pa', () => 40, leaving(20, 90));
    expect(gapFacts([before], tested).gap_count).toBeUndefined();
    const across = recorded('vacuum_pa', () => 40, leaving(40, 160));
    expect(gapFacts([across], tested).gap_longest_s).toBeCloseTo(60, 6);
  });

  test('readings of another column do not fill a gap of the one that tells', () => {
    const log = recorded('vacuum_pa', () => 40, leaving(300, 450));
    expect(gapFacts([recorded('scale_kg', () => 9), log], tested).gap_phase).toBe('rise test');
  });

  test('without a stretch to look at nothing is said', () => {
    expect(gapFacts([recorded('vacuum_pa', () => 40)], {})).toEqual({});
  });
});

/** What a clock shows that is put forward at a time. */
const ahead = (atS: number, byS: number, everyS = 2) => leaving(atS, atS + byS, everyS);
/** The truth by such a clock. */
const onClock = (shown: (atS: number) => number, atS: number, byS: number) => (clockS: number) =>
  shown(clockS < atS ? clockS : clockS - byS);

describe('forwardJump', () => {
  test('a pull-down that goes on across an hour is a clock', () => {
    const shown = noisy(onClock(pulled, 100, 3600), { ratio: 0.008, step: 0.133322368 });
    const found = forwardJump([recorded('vacuum_pa', shown, ahead(100, 3600))]);
    expect(found).toMatchObject({ sign: 'course', column: 'vacuum_pa' });
    expect(found?.jumpS).toBeCloseTo(3600, 0);
  });

  test('a gap across which the pressure went on falling is a gap', () => {
    for (const lostS of [100, 300, 3600]) {
      const shown = noisy(pulled, { ratio: 0.008, step: 0.133322368 });
      expect(forwardJump([recorded('vacuum_pa', shown, ahead(60, lostS))])).toBeUndefined();
    }
  });

  test('in a level stretch only just an hour looks like a clock', () => {
    const level = (byS: number) =>
      recorded(
        'test_pressure_pa',
        noisy(() => 3e6, { deviation: 1500, step: 690 }),
        ahead(300, byS),
      );
    expect(forwardJump([level(3600)])).toMatchObject({ sign: 'length', startS: 298 });
    expect(forwardJump([level(3400)])).toBeUndefined();
  });

  test('another column that changed meanwhile makes it a gap', () => {
    const shown = noisy(onClock(pulled, 100, 3600), { ratio: 0.008, step: 0.133322368 });
    const vacuum = recorded('vacuum_pa', shown, ahead(100, 3600));
    const moved = recorded(
      'outdoor_c',
      noisy((atS) => (atS < 100 ? 30 : 24), { deviation: 0.05, step: 0.1 }),
      ahead(100, 3600),
    );
    expect(forwardJump([vacuum, moved])).toBeUndefined();
  });
});

describe('backwardJump', () => {
  /** A log whose clock was put back by so much at a time: readings by their times, then by when they were read. */
  const putBack = (atS: number, byS: number, shown: (atS: number) => number) => {
    const read = Array.from({ length: 400 }, (_, index) => index * 2 + 0.3);
    const rows = read
      .map((trueS) => ({ clockS: trueS < atS ? trueS : trueS - byS, value: shown(trueS) }))
      .toSorted((a, b) => a.clockS - b.clockS);
    return recorded('vacuum_pa', (clockS) => rows.find((row) => row.clockS === clockS)?.value ?? Number.NaN, {
      readings: rows.length,
      atS: (index) => rows[index].clockS,
    });
  };

  test('two courses that lie between each other are a clock put back, and about how far', () => {
    const found = backwardJump([putBack(200, 99, noisy(pulled, { ratio: 0.005 }))]);
    expect(found?.column).toBe('vacuum_pa');
    expect(found?.startS).toBeGreaterThan(90);
    expect(Math.abs((found?.jumpS ?? 0) - 99)).toBeLessThan(15);
  });

  test('noise, a flickering step, and a log read more often for a while are none', () => {
    const level = () => 60;
    const flickering = (atS: number) => (Math.round(atS / 2) % 2 === 0 ? 60 : 60.133322368);
    for (const shown of [noisy(level, { ratio: 0.02, step: 0.133322368 }), noisy(pulled, { ratio: 0.01 }), flickering])
      expect(backwardJump([recorded('vacuum_pa', shown)])).toBeUndefined();
    const denser = { atS: (index: number) => (index < 200 ? index * 2 : 400 + (index - 200)) };
    expect(
      backwardJump([recorded('vacuum_pa', noisy(level, { ratio: 0.02, step: 0.133322368 }), denser)]),
    ).toBeUndefined();
  });
});
