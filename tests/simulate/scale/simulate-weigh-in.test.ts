import { describe, expect, test } from 'vitest';
import { Random } from '../../../src/numerics/random.ts';
import { type ScaleUpset, scaleUpsetNames } from '../../../src/simulate/scale/scale-upsets.ts';
import { type SimulatedWeighIn, simulateWeighIn } from '../../../src/simulate/scale/simulate-weigh-in.ts';

const weighIn = (seed: number, upsets?: readonly ScaleUpset[], own = {}) =>
  simulateWeighIn({
    random: new Random(seed),
    massKg: 0.6,
    cylinderKg: 12,
    scaleStepKg: 0.001,
    intervalS: 1,
    ...(upsets && { upsets }),
    ...own,
  });
const many = (count: number, upsets?: readonly ScaleUpset[], own = {}) =>
  Array.from({ length: count }, (_, index) => weighIn(index + 1, upsets, own));

/** Readings of a stretch [kg], without those of a scale that is off. */
const between = ({ elapsedS, scaleKg }: SimulatedWeighIn, fromS: number, toS: number) =>
  [...scaleKg].filter((kg, index) => elapsedS[index] >= fromS && elapsedS[index] <= toS && !Number.isNaN(kg));
const before = (one: SimulatedWeighIn) => between(one, 0, one.truth.flowFromS);
const after = (one: SimulatedWeighIn) => between(one, one.truth.flowToS + 0.1, Infinity);
const middle = (kgs: number[]) => kgs.sort((a, b) => a - b)[kgs.length >> 1];
const spread = (kgs: number[]) => Math.max(...kgs) - Math.min(...kgs);

describe('simulateWeighIn', () => {
  test('with nothing that upsets it, the display falls from plateau to plateau by what left', () => {
    for (const one of many(100, [])) {
      expect(Math.abs(middle(before(one)) - middle(after(one)) - 0.6)).toBeLessThan(0.003);
      expect(one.truth.upsets).toEqual([]);
      const shown = between(one, 0, Infinity);
      expect(shown.every((kg) => !(kg > shown[0] + 0.01))).toBe(true);
    }
  });

  test('times rise, plateaus last 15 to 90 s and 20 to 120 s, readings come at the interval', () => {
    for (const one of many(100, [], { intervalS: 3 })) {
      const { elapsedS, truth } = one;
      const gaps = [...elapsedS.subarray(1)].map((atS, index) => atS - elapsedS[index]);
      expect(Math.min(...gaps)).toBeGreaterThan(2);
      expect(Math.max(...gaps)).toBeLessThan(4);
      expect(truth.flowFromS).toBeGreaterThanOrEqual(15);
      expect(truth.flowFromS).toBeLessThan(90);
      expect((elapsedS.at(-1) ?? 0) - truth.flowToS).toBeGreaterThan(15);
      expect((elapsedS.at(-1) ?? 0) - truth.flowToS).toBeLessThan(121);
    }
  });

  test.each([0.001, 0.005, 0.01, 0.02])('a scale that steps by %d kg shows whole steps', (scaleStepKg) => {
    for (const { scaleKg } of many(40, undefined, { scaleStepKg })) {
      const off = scaleKg.filter((kg) => Math.abs(kg / scaleStepKg - Math.round(kg / scaleStepKg)) > 1e-6);
      expect([...off]).toEqual([]);
    }
  });

  test('equal seeds give equal courses, another seed another one', () => {
    expect(weighIn(7)).toEqual(weighIn(7));
    expect(weighIn(7)).not.toEqual(weighIn(8));
  });

  test('upsets come as often as they are meant to: none on some 60 %', () => {
    const drawn = many(4000, undefined, { intervalS: 60 });
    const share = (is: (names: readonly ScaleUpset[]) => boolean) =>
      drawn.filter(({ truth }) => is(truth.upsets)).length / drawn.length;
    expect(Math.abs(share((names) => names.length === 0) - 0.605)).toBeLessThan(0.03);
    const meant: Record<ScaleUpset, number> = {
      bump: 0.15,
      hose: 0.1,
      're-zero': 0.165,
      'cylinder-change': 0.03,
      drift: 0.1,
      wind: 0.03,
      'switched-off': 0.02,
    };
    for (const name of scaleUpsetNames) {
      expect(Math.abs(share((names) => names.includes(name)) - meant[name])).toBeLessThan(0.02);
    }
  });
});

describe('each upset shows where it is asked for', () => {
  test('a bump stands out by 0.1 kg or more, and leaves the plateaus where they were', () => {
    for (const one of many(60, ['bump'])) {
      const shown = between(one, 0, Infinity);
      const jumps = shown.slice(1).map((kg, index) => Math.abs(kg - shown[index]));
      expect(Math.max(...jumps)).toBeGreaterThan(0.05);
      expect(Math.abs(before(one)[0] - (after(one).at(-1) as number) - 0.6)).toBeLessThan(0.008);
    }
  });

  test('a hose that stays in mid-charge hides 15 to 90 g; half of the pulls stay', () => {
    const hidden = many(400, ['hose']).map((one) => Math.abs(before(one)[0] - (after(one).at(-1) as number) - 0.6));
    expect(hidden.every((kg) => kg < 0.008 || (kg > 0.009 && kg < 0.098))).toBe(true);
    const stays = hidden.filter((kg) => kg > 0.012).length / hidden.length;
    expect(stays).toBeGreaterThan(0.4);
    expect(stays).toBeLessThan(0.65);
  });

  test('a re-zero brings the display to 0 at once; most before the charge, and then it ends below 0', () => {
    const zeroed = many(200, ['re-zero']);
    for (const one of zeroed) expect(between(one, 0, Infinity).some((kg) => Math.abs(kg) < 0.06)).toBe(true);
    const early = zeroed.filter((one) => Math.abs(before(one).at(-1) as number) < 0.01);
    expect(early.length / zeroed.length).toBeGreaterThan(0.8);
    const below = early.filter((one) => Math.abs(middle(after(one)) + 0.6) < 0.01);
    expect(below.length / early.length).toBeGreaterThan(0.85);
  });

  test('a changed cylinder leaves the scale empty for 10 to 60 s', () => {
    for (const one of many(60, ['cylinder-change'])) {
      const { elapsedS, scaleKg, truth } = one;
      const emptyKg = Math.min(...between(one, truth.flowFromS, truth.flowToS));
      const empty = [...elapsedS].filter((_, index) => Math.abs(scaleKg[index] - emptyKg) < 0.01);
      const lastsS = (empty.at(-1) ?? 0) - (empty[0] ?? 0);
      expect(lastsS).toBeGreaterThan(7);
      expect(lastsS).toBeLessThan(62);
      expect(emptyKg).toBeLessThan(before(one)[0] - 11);
    }
  });

  test('drift moves the plateaus by grams', () => {
    const movedKg = (upsets: ScaleUpset[]) =>
      middle(many(200, upsets).map((one) => Math.abs(middle(before(one)) - middle(after(one)) - 0.6)));
    expect(movedKg(['drift'])).toBeGreaterThan(0.001);
    expect(movedKg(['drift'])).toBeGreaterThan(4 * movedKg([]));
  });

  test('wind sways the plateaus by grams', () => {
    const swayKg = (upsets: ScaleUpset[]) => middle(many(100, upsets).map((one) => spread(after(one))));
    expect(swayKg([])).toBeLessThan(0.007);
    expect(swayKg(['wind'])).toBeGreaterThan(0.012);
  });

  test('a scale that is off shows nothing for a while', () => {
    for (const { scaleKg } of many(60, ['switched-off'])) {
      const gone = scaleKg.filter(Number.isNaN).length;
      expect(gone).toBeGreaterThan(10);
      expect(gone).toBeLessThan(190);
    }
    expect(weighIn(1, []).scaleKg.some(Number.isNaN)).toBe(false);
  });
});
