import { describe, expect, test } from 'vitest';
import { scaleCourse } from '../../src/traces/scale-course.ts';
import { ScaleLog } from './scale-log.ts';

/** Within one step of the scale, as any reading of it is. */
function expectMass(log: ScaleLog, kg: number, stepKg = 0.005) {
  const { flow } = scaleCourse(log.series(), stepKg);
  expect(flow).toBeDefined();
  expect(Math.abs((flow?.massKg ?? 0) - kg), `${flow?.massKg}`).toBeLessThanOrEqual(stepKg + 1e-9);
}

describe('what flowed off the scale', () => {
  test('from stand to stand, with its times', () => {
    const course = scaleCourse(new ScaleLog(9.5).run(60).run(40, 0.4).run(60).series(), 0.005);
    expect(course.flow?.massKg).toBeCloseTo(0.4, 2);
    expect(course.flow?.fromS).toBeGreaterThanOrEqual(58);
    expect(course.flow?.fromS).toBeLessThanOrEqual(61);
    expect(course.flow?.toS).toBeGreaterThanOrEqual(97);
    expect(course.flow?.toS).toBeLessThanOrEqual(101);
    expect([course.events, course.isCut]).toEqual([[], false]);
  });

  test.each([
    ['in bursts with pauses between', new ScaleLog(9.5).run(40).run(20, 0.3).run(25).run(5, 0.03).run(60), 0.33],
    ['in a slow trickle of a quarter of a gram a second', new ScaleLog(9.5).run(60).run(600, 0.15).run(90), 0.15],
    ['zeroed with the cylinder on it', new ScaleLog(9.5).run(20).zero().run(40).run(40, 0.4).run(60), 0.4],
    ['zeroed before the log begins', new ScaleLog(0).run(40).run(40, 0.4).run(60), 0.4],
    [
      'somebody leaning on the cylinder before, in the midst and after',
      new ScaleLog(9.5)
        .run(20)
        .shift(1.4)
        .run(6)
        .shift(-1.4)
        .run(20)
        .run(20, 0.2)
        .shift(0.8)
        .run(5, 0.05)
        .shift(-0.8)
        .run(15, 0.15)
        .run(30)
        .shift(-0.6)
        .run(8)
        .shift(0.6)
        .run(30),
      0.4,
    ],
    [
      'a hose that lifts the cylinder from the middle of the charge on',
      new ScaleLog(9.5).run(40).run(20, 0.2).shift(0.06).run(20, 0.2).run(60),
      0.4,
    ],
    [
      'a hose pulled before the charge and let go after it',
      new ScaleLog(9.5).run(30).shift(-0.05).run(40).run(40, 0.4).run(40).shift(0.05).run(30),
      0.4,
    ],
    [
      'another cylinder in the midst',
      new ScaleLog(5).run(40).run(20, 0.2).run(15).shift(-4.8).run(30).shift(10.8).run(20).run(30, 0.3).run(60),
      0.5,
    ],
    ['a drift of 0.3 g a minute', new ScaleLog(9.5).run(120, 0.0006).run(40, 0.4002).run(120, 0.0006), 0.4],
    ['a reading every 5 s', new ScaleLog(9.5, { intervalS: 5 }).run(60).run(40, 0.4).run(60), 0.4],
    [
      'the scale off for a while in the midst',
      new ScaleLog(9.5).run(40).run(20, 0.2).gap(30, 0.15).run(5, 0.05).run(60),
      0.4,
    ],
    [
      'some let back into the cylinder afterwards',
      new ScaleLog(9.5).run(40).run(40, 0.4).run(60).run(20, -0.05).run(60),
      0.35,
    ],
  ])('%s', (_, log, kg) => {
    expectMass(log, kg);
  });

  test.each([0.001, 0.01, 0.02])('in steps of %d kg', (stepKg) => {
    expectMass(new ScaleLog(9.5032, { stepKg }).run(60).run(40, 0.4).run(60), 0.4, stepKg);
  });

  test('the step is told from the readings where none is on record', () => {
    expect(
      scaleCourse(new ScaleLog(9.5, { stepKg: 0.01 }).run(60).run(40, 0.4).run(60).series()).grain.stepKg,
    ).toBeCloseTo(0.01, 9);
  });
});

describe('what tells no flow', () => {
  test('a load that stands, with a bump', () => {
    const log = new ScaleLog(9.5).run(60).shift(2).run(5).shift(-2).run(60);
    const { flow, events, isCut } = scaleCourse(log.series(), 0.005);
    expect([flow, events.length, isCut]).toEqual([undefined, 1, false]);
  });

  test.each([
    ['ends', new ScaleLog(9.5).run(60).run(40, 0.4)],
    ['begins', new ScaleLog(9.5).run(40, 0.4).run(60)],
  ])('a log that %s in the midst of the flow', (_, log) => {
    const { flow, isCut } = scaleCourse(log.series(), 0.005);
    expect([flow, isCut]).toEqual([undefined, true]);
  });
});

test('one sudden step down is taken for flow, and called doubtful', () => {
  const log = new ScaleLog(9.5, { intervalS: 5 }).run(60).run(40, 0.4).run(30).shift(-0.06).run(60);
  const { flow, doubtful } = scaleCourse(log.series(), 0.005);
  expect(flow?.massKg).toBeCloseTo(0.46, 2);
  expect(doubtful.map(({ shiftKg }) => Math.round(1000 * shiftKg))).toEqual([-60]);
});

test('two sudden steps that undo each other are none', () => {
  const log = new ScaleLog(9.5).run(40).run(40, 0.4).run(60).shift(-0.06).run(60).shift(0.06).run(60);
  expectMass(log, 0.4);
});
