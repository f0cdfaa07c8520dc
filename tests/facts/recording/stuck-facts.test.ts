import { describe, expect, test } from 'vitest';
import { stuckFacts } from '../../../src/facts/recording/stuck-facts.ts';
import { noisy, pulled, recorded } from './recorded.ts';

const micronPa = 0.133322368;
const isolated = { pull_down_start_s: 0, isolation_start_s: 100, isolation_end_s: 800 };
/** What a sensor shows that hangs from one time to another. */
const hung = (shown: (atS: number) => number, fromS: number, toS: number) => {
  let held = Number.NaN;
  return (atS: number) => {
    const value = shown(atS);
    if (atS <= fromS) held = value;
    return atS >= fromS && atS <= toS ? held : value;
  };
};

describe('stuckFacts', () => {
  test('a gauge whose last digit never rests, and then does for minutes, hangs', () => {
    const rise = noisy((atS) => 60 + 0.02 * atS, { ratio: 0.012, step: micronPa });
    const found = stuckFacts([recorded('vacuum_pa', hung(rise, 300, 500))], isolated);
    expect(found).toMatchObject({ stuck_column: 'vacuum_pa', stuck_sign: 'noise', stuck_start_s: 300 });
    expect(found.stuck_s).toBeCloseTo(200, 6);
    expect(stuckFacts([recorded('vacuum_pa', rise)], isolated)).toEqual({});
  });

  test('a dry, tight system on a coarse gauge does not', () => {
    const coarse = noisy((atS) => (atS < 100 ? pulled(atS * 5) : 21), { ratio: 0.01, step: 10 * micronPa });
    expect(stuckFacts([recorded('vacuum_pa', coarse)], isolated)).toEqual({});
  });

  test('nor a level test, a clamp indoors, a scale at rest, a compressor that stands', () => {
    const still = [
      recorded('test_pressure_pa', (atS) => (atS < 30 ? 1e5 + atS * 1e5 : 3.1e6)),
      recorded(
        'line_c',
        noisy(() => 295, { deviation: 0.02, step: 0.1 }),
      ),
      recorded('scale_kg', (atS) => (atS < 200 ? 12 : 11.6)),
      recorded(
        'compressor_w',
        noisy((atS) => (atS < 300 ? 0 : 2000), { ratio: 0.006, step: 10 }),
      ),
    ];
    expect(stuckFacts(still, { run_start_s: 300, run_s: 500 })).toEqual({});
  });

  test('a vacuum gauge noisy while it pumps and calm afterwards is not told by that noise', () => {
    const calm = noisy(() => 60, { step: micronPa });
    const pumping = noisy((atS) => pulled(atS * 3) + 56, { ratio: 0.03, step: micronPa });
    const log = recorded('vacuum_pa', (atS) => (atS < 400 ? pumping(atS) : calm(atS)));
    expect(stuckFacts([log], { pull_down_start_s: 0, isolation_start_s: 400, isolation_end_s: 800 })).toEqual({});
  });

  test('a display that hung and caught up', () => {
    const flow = (atS: number) => 12 - 0.002 * atS;
    const found = stuckFacts([recorded('scale_kg', hung(noisy(flow, { step: 0.001 }), 300, 420))], {});
    expect(found).toMatchObject({ stuck_column: 'scale_kg', stuck_sign: 'caught-up', stuck_start_s: 300 });
    // A valve that was shut for as long catches nothing up.
    const shut = (atS: number) => 12 - 0.002 * (atS < 300 ? atS : Math.max(300, atS - 120));
    expect(stuckFacts([recorded('scale_kg', noisy(shut, { step: 0.001 }))], {})).toEqual({});
  });

  const ran = { run_start_s: 300, run_s: 480 };
  const liquid = recorded(
    'liquid_pa',
    noisy((atS) => (atS < 300 ? 1.5e6 : 2.4e6), { deviation: 2000, step: 6895 }),
  );

  test('a suction gauge that shows one pressure through the start, or all along, while the other side moves', () => {
    const all = recorded('suction_pa', () => 1.1e6);
    expect(stuckFacts([all, liquid], { ...ran, run_s: 700 })).toMatchObject({ stuck_sign: 'all-along' });
    expect(stuckFacts([all, liquid], ran)).toEqual({});
    const through = recorded('suction_pa', (atS) => (atS < 200 ? 1.4e6 : atS < 500 ? 1.5e6 : 9e5));
    expect(stuckFacts([through, liquid], ran)).toMatchObject({ stuck_sign: 'start', stuck_column: 'suction_pa' });
  });

  test('a gauge at the end of its range is clipped', () => {
    const open = noisy((atS) => 2.1e6 + 3e5 * Math.sin(atS / 120), { deviation: 15_000, step: 6895 });
    const clipped = recorded('liquid_pa', (atS) => Math.min(open(atS), 340 * 6895));
    expect(stuckFacts([clipped], { run_start_s: 20, run_s: 760 })).toMatchObject({
      stuck_sign: 'ceiling',
      stuck_column: 'liquid_pa',
    });
  });

  test('above its range a vacuum gauge shows over, which is no clipping', () => {
    const over = (atS: number) => (atS < 300 ? Number.POSITIVE_INFINITY : pulled(atS - 300));
    const log = recorded('vacuum_pa', noisy(over, { ratio: 0.01, step: micronPa }));
    expect(stuckFacts([log], { pull_down_start_s: 0 })).toEqual({});
  });
});
