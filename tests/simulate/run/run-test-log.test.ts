import { describe, expect, test } from 'vitest';
import { Random } from '../../../src/numerics/random.ts';
import { fastSaturationOf } from '../../../src/physics/index.ts';
import { drawRunTest } from '../../../src/simulate/run/draw-run-test.ts';
import { exactInstruments } from '../../../src/simulate/run/run-instruments.ts';
import { simulateRunTest } from '../../../src/simulate/run/run-test-log.ts';
import { type RunTestOptions, runColumns } from '../../../src/simulate/run/run-test.ts';
import { drawSystem } from '../../../src/simulate/system.ts';

const exact = (options: Partial<RunTestOptions> = {}): RunTestOptions => ({
  random: new Random(3),
  refrigerant: 'R-410A',
  ratedCoolingW: 8800,
  metering: 'txv',
  compressor: 'single',
  outdoorC: 33,
  indoorC: 26,
  indoorWetBulbC: 19,
  restS: 240,
  durationS: 1800,
  intervalS: 5,
  disturbed: true,
  instruments: exactInstruments,
  ...options,
});

/** Means of superheat and subcooling that readings show from one time to another [K]. */
function shown({ readings, truth }: ReturnType<typeof simulateRunTest>) {
  const curve = fastSaturationOf(truth.refrigerant);
  const { steadyStartS = Number.NaN, steadyEndS = Number.NaN } = truth;
  const at = [...readings.elapsedS.keys()].filter(
    (index) => readings.elapsedS[index] >= steadyStartS && readings.elapsedS[index] <= steadyEndS,
  );
  const mean = (of: (index: number) => number) => at.reduce((sum, index) => sum + of(index), 0) / at.length;
  return {
    superheatK: mean((index) => readings.suctionLineC[index] + 273.15 - curve.dewK(readings.suctionPa[index])),
    subcoolingK: mean((index) => curve.bubbleK(readings.liquidPa[index]) - readings.liquidLineC[index] - 273.15),
  };
}

describe('simulateRunTest', () => {
  test.each([
    exact(),
    exact({ metering: 'fixed', refrigerant: 'R-407C' }),
    exact({ hunting: { amplitudeK: 1.5, periodS: 90 } }),
    exact({ refrigerant: 'R-32', madeFor: 'R-410A' }),
    exact({ metering: 'eev', compressor: 'variable', fixedTestMode: true }),
  ])('the truth is what exact instruments show while it is steady (%#)', (options) => {
    const log = simulateRunTest(options);
    expect(log.truth.steadyStartS).toBeGreaterThan(options.restS);
    expect(log.truth.steadyEndS).toBe(options.durationS);
    const { superheatK, subcoolingK } = shown(log);
    expect(superheatK).toBeCloseTo(log.truth.superheatK ?? Number.NaN, 9);
    expect(subcoolingK).toBeCloseTo(log.truth.subcoolingK ?? Number.NaN, 9);
  });

  test('at rest both pressures are one, that of the refrigerant at the coldest place, and of air where there is some', () => {
    const curve = fastSaturationOf('R-410A');
    const rests = [{}, { faults: { nonCondensableRatio: 0.15 } }].map((more) => simulateRunTest(exact(more)));
    for (const { readings } of rests) {
      for (let index = 0; readings.elapsedS[index] < 240; index++) {
        expect(readings.suctionPa[index]).toBe(readings.liquidPa[index]);
        expect(readings.compressorW[index]).toBe(0);
      }
      expect(readings.liquidPa[60]).toBeGreaterThan(1.1 * readings.suctionPa[60]);
    }
    const [clean, aired] = rests.map(({ truth }) => truth);
    expect(curve.bubbleK(clean.restPa)).toBeCloseTo(clean.restK, 1);
    expect(aired.restPa - clean.restPa).toBeGreaterThan(60_000);
    expect(clean.restK - 273.15).toBeLessThan(29);
  });

  test('modes run from rest to cooling', () => {
    expect(simulateRunTest(exact()).modes).toEqual([
      { fromS: 0, mode: undefined },
      { fromS: 240, mode: 'cooling' },
    ]);
  });

  test('charge added while it runs makes it settle anew', () => {
    const trim = { atS: 900, chargeRatio: 1 };
    const { truth } = simulateRunTest(exact({ faults: { chargeRatio: 0.85 }, trim, durationS: 2400 }));
    const low = simulateRunTest(exact({ faults: { chargeRatio: 0.85 } })).truth;
    expect(truth.steadyStartS).toBeGreaterThan(900);
    expect(truth.subcoolingK).toBeGreaterThan((low.subcoolingK ?? Number.NaN) + 3);
  });

  test('a test that stops early, one with a compressor that goes up and down, and heating have no steady state to judge', () => {
    expect(simulateRunTest(exact({ durationS: 400 })).truth.superheatK).toBeUndefined();
    const modulating = exact({ compressor: 'variable', metering: 'eev' });
    const starts = [1, 2, 3, 4, 5, 6].map(
      (seed) => simulateRunTest({ ...modulating, random: new Random(seed) }).truth.steadyStartS ?? Infinity,
    );
    expect(Math.max(...starts)).toBeGreaterThan(1200);
    const heating = simulateRunTest(
      exact({ heating: true, outdoorC: 3, indoorC: 20, indoorWetBulbC: 13, metering: 'eev' }),
    );
    expect(heating.truth.superheatK).toBeUndefined();
    expect(heating.readings.supplyC.at(-1)).toBeGreaterThan(30);
    expect(heating.modes.some(({ mode }) => mode === 'heating')).toBe(true);
  });

  test('a clamp that falls off goes to the air, and swapped hoses swap the pressures', () => {
    const off = simulateRunTest(exact({ upset: { kind: 'clamp-off', atS: 1200, clamp: 'suction' } }));
    expect(off.readings.suctionLineC.at(-1)).toBeCloseTo(off.readings.outdoorC.at(-1) ?? Number.NaN, 9);
    expect(off.truth.upset).toBe('clamp-off');
    const [right, swapped] = [undefined, { kind: 'swapped', atS: 0, clamp: 'liquid' } as const].map((upset) =>
      simulateRunTest(exact({ upset })),
    );
    expect(swapped.readings.suctionPa).toEqual(right.readings.liquidPa);
    expect(swapped.readings.liquidPa).toEqual(right.readings.suctionPa);
    expect(swapped.truth.superheatK).toBe(right.truth.superheatK);
  });
});

describe('drawRunTest', () => {
  const draw = (seed: number) => {
    const random = new Random(seed);
    const system = drawSystem(random, random.choice(['ductless', 'ducted', 'multi'] as const), random.chance(0.3));
    return drawRunTest(random, { system, outdoorC: random.normal(20, 10), atmospherePa: 98_000 });
  };
  const drawn = Array.from({ length: 600 }, (_, index) => {
    const options = draw(index);
    return { options, log: simulateRunTest(options) };
  });

  test('equal seeds give equal logs, another seed another one', () => {
    expect(simulateRunTest(draw(5))).toEqual(drawn[5].log);
    expect(simulateRunTest(draw(6)).readings.suctionPa).not.toEqual(drawn[5].log.readings.suctionPa);
  });

  test('every column is logged whole or not at all', () => {
    const faults = drawn.flatMap(({ options, log }) =>
      runColumns.filter((name) => {
        const blanks = log.readings[name].filter(Number.isNaN).length;
        return blanks !== (options.blank?.has(name) ? log.readings[name].length : 0);
      }),
    );
    expect(faults).toEqual([]);
  });

  test('most are sound, each fault occurs, most get steady', () => {
    const share = (isTrue: (one: (typeof drawn)[number]) => boolean) => drawn.filter(isTrue).length / drawn.length;
    expect(share(({ log }) => log.truth.pattern === 'none')).toBeGreaterThan(0.65);
    for (const pattern of ['low-charge', 'overcharge', 'restriction', 'poor-airflow', 'non-condensables'] as const) {
      expect(share(({ log }) => log.truth.pattern === pattern)).toBeGreaterThan(0.01);
    }
    expect(share(({ log }) => log.truth.steadyStartS !== undefined)).toBeGreaterThan(0.55);
    expect(share(({ options }) => options.outdoorC < 12.8)).toBeGreaterThan(0.1);
    expect(share(({ options }) => options.heating === true)).toBeGreaterThan(0.05);
  });

  test('what good instruments show is near the truth', () => {
    const off = drawn.flatMap(({ options, log }) => {
      const { superheatK } = shown(log);
      const hidden = options.upset !== undefined || log.truth.superheatK === undefined;
      return hidden ? [] : superheatK - (log.truth.superheatK ?? Number.NaN);
    });
    expect(off.length).toBeGreaterThan(200);
    expect(off.reduce((sum, one) => sum + one, 0) / off.length).toBeCloseTo(0, 0);
    expect(off.filter((one) => Math.abs(one) < 2).length / off.length).toBeGreaterThan(0.95);
  });
});
