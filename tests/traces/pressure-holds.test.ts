import { describe, expect, test } from 'vitest';
import { Random } from '../../src/numerics/random.ts';
import { pressureHolds } from '../../src/traces/pressure-holds.ts';

const psiPa = 6894.757293168;
const airPa = 101_325;

interface Curve {
  /** Corners: time [s] and pressure [psig]; straight between. */
  readonly corners: readonly (readonly [atS: number, psig: number])[];
  readonly intervalS?: number;
  readonly noisePsi?: number;
  readonly stepPsi?: number;
}

function holdsOf({ corners, intervalS = 2, noisePsi = 0.2, stepPsi = 1 }: Curve) {
  const random = new Random(3, 9);
  const lastS = corners.at(-1)?.[0] ?? 0;
  const elapsedS = Float64Array.from({ length: Math.floor(lastS / intervalS) + 1 }, (_, at) => at * intervalS);
  const testPa = elapsedS.map((atS) => {
    const next = Math.max(
      1,
      corners.findIndex(([cornerS]) => cornerS >= atS),
    );
    const [[fromS, from], [toS, to]] = [corners[next - 1], corners[next]];
    const psig = from + ((to - from) * (atS - fromS)) / (toS - fromS) + random.normal(0, noisePsi);
    return Math.max(0, Math.round(psig / stepPsi) * stepPsi) * psiPa + airPa;
  });
  return pressureHolds({ elapsedS, testPa }, airPa).map(({ startS, endS, startPa, isFilled }) => ({
    startS,
    endS,
    psig: (startPa - airPa) / psiPa,
    isFilled,
  }));
}

/** Within one reading or two, and 3 psi. */
function expectHolds(
  found: ReturnType<typeof holdsOf>,
  wanted: readonly (readonly [number, number, number])[],
  slackS = 6,
) {
  expect(found).toHaveLength(wanted.length);
  for (const [at, [startS, endS, psig]] of wanted.entries()) {
    expect(Math.abs(found[at].startS - startS)).toBeLessThanOrEqual(slackS);
    expect(Math.abs(found[at].endS - endS)).toBeLessThanOrEqual(slackS);
    expect(Math.abs(found[at].psig - psig)).toBeLessThanOrEqual(3);
  }
}

describe('the holds of a standing test', () => {
  test('are its stages', () => {
    const found = holdsOf({
      corners: [
        [0, 0],
        [60, 0],
        [70, 10],
        [300, 10],
        [330, 150],
        [600, 150],
        [660, 500],
        [4000, 500],
        [4030, 0],
        [4100, 0],
      ],
    });
    expectHolds(found, [
      [70, 300, 10],
      [330, 600, 150],
      [660, 4000, 500],
    ]);
    expect(found.every(({ isFilled }) => isFilled)).toBe(true);
  });

  test('are found where 10 % steps are filled by slow hand', () => {
    const found = holdsOf({
      corners: [
        [0, 400],
        [900, 400],
        [1080, 440],
        [2000, 440],
        [2180, 484],
        [4000, 484],
      ],
    });
    expectHolds(
      found,
      [
        [0, 900, 400],
        [1080, 2000, 440],
        [2180, 4000, 484],
      ],
      30,
    );
  });

  test.each([
    ['every second', 1, 8],
    ['every half minute', 30, 75],
    ['every five minutes', 300, 700],
  ])('are found in logs read %s', (_, intervalS, slackS) => {
    const found = holdsOf({
      corners: [
        [0, 0],
        [600, 0],
        [640, 450],
        [9000, 449],
        [9030, 0],
        [9600, 0],
      ],
      intervalS,
    });
    expectHolds(found, [[640, 9000, 450]], slackS);
  });

  test('reach to the ends of a log that is cut', () => {
    const [hold] = holdsOf({
      corners: [
        [0, 500],
        [3000, 498],
      ],
    });
    expect(hold).toMatchObject({ startS: 0, endS: 3000, isFilled: false });
  });

  test('go on through sun and cloud', () => {
    const swings = Array.from({ length: 20 }, (_, at): [number, number] => [700 + 300 * at, at % 2 === 0 ? 500 : 518]);
    expectHolds(holdsOf({ corners: [[0, 0], [30, 500], ...swings] }), [[30, 6400, 500]]);
  });

  test('go on through the cooling after a fast filling', () => {
    expectHolds(
      holdsOf({
        corners: [
          [0, 0],
          [15, 540],
          [45, 515],
          [150, 501],
          [3000, 500],
        ],
      }),
      [[15, 3000, 536]],
      16,
    );
  });

  test('go on through a leak that loses a tenth in five minutes, and end where the rest is let off', () => {
    const found = holdsOf({
      corners: [
        [0, 0],
        [30, 500],
        [330, 450],
        [630, 405],
        [930, 364],
        [935, 200],
        [940, 60],
        [950, 0],
        [1000, 0],
      ],
    });
    expectHolds(found, [[30, 930, 500]], 10);
  });

  test('end before the first reading that is on its way down', () => {
    // Two psi a second at first: no leak, and of the way down not three in a hundred.
    const [hold] = holdsOf({
      corners: [
        [0, 500],
        [3000, 500],
        [3005, 490],
        [3030, 0],
        [3100, 0],
      ],
      intervalS: 1,
      noisePsi: 0.05,
    });
    expect(hold.endS).toBeGreaterThanOrEqual(2999);
    expect(hold.endS).toBeLessThanOrEqual(3001);
  });

  test('are none where there is no pressure, or only for seconds', () => {
    expect(
      holdsOf({
        corners: [
          [0, 0],
          [3000, 0],
        ],
      }),
    ).toEqual([]);
    expect(
      holdsOf({
        corners: [
          [0, 0],
          [30, 300],
          [50, 300],
          [60, 0],
          [600, 0],
        ],
      }),
    ).toEqual([]);
  });

  test('are told from the grain of a coarse gauge', () => {
    const found = holdsOf({
      corners: [
        [0, 0],
        [60, 0],
        [80, 300],
        [4000, 300],
      ],
      stepPsi: 5,
      noisePsi: 2.5,
    });
    expectHolds(found, [[80, 4000, 300]], 8);
  });

  test('are not parted by a single wild reading', () => {
    const elapsedS = Float64Array.from({ length: 1000 }, (_, at) => at * 2);
    const testPa = elapsedS.map((atS, at) =>
      at === 400 ? 0 : at === 700 ? 9e6 : 500 * psiPa + airPa + (atS % 6) * 100,
    );
    expect(pressureHolds({ elapsedS, testPa }, airPa)).toMatchObject([{ startS: 0, endS: 1998 }]);
  });
});
