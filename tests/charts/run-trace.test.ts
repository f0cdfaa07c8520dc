import type { TopLevelSpec } from 'vega-lite';
import { expect, test } from 'vitest';
import { runTrace } from '../../src/charts/run-trace.ts';
import { runSample } from '../pages/run-sample.ts';
import { valuesOf } from './values-of.ts';

const run = runSample();
const chart = (units: 'ip' | 'si') => runTrace(run.trace, { ...run, units }) as TopLevelSpec;

test('temperatures are in °F or °C, and what was not read is not there', () => {
  const first = (units: 'ip' | 'si') => (valuesOf(chart(units), 'readings') as object[])[0];
  // 295 K is 21.85 °C, 71.33 °F.
  expect(first('si')).toEqual({ t: 0, dew: 21.85, suction: 21.85, bubble: 21.85, liquid: 21.85 });
  expect(first('ip')).toMatchObject({ dew: 71.33 });
  expect((valuesOf(chart('si'), 'readings') as object[])[9]).toMatchObject({ t: 2.25, bubble: null, liquid: 21.85 });
});

test('a gap is a bar in the middle of the steady stretch, with its words outside the pair', () => {
  expect(valuesOf(chart('si'), 'gaps')).toEqual([
    { name: 'superheat', text: 'superheat 6.0 K', saturation: 5.85, line: 11.85, edge: 5.85, offsetPx: 13, at: 19 },
    {
      name: 'subcooling',
      text: 'subcooling 5.0 K',
      saturation: 41.85,
      line: 36.85,
      edge: 41.85,
      offsetPx: -12,
      at: 19,
    },
  ]);
  expect(valuesOf(chart('ip'), 'gaps')).toMatchObject([{ text: 'superheat 10.8 °F' }, { text: 'subcooling 9.0 °F' }]);
  expect(valuesOf(chart('si'), 'steady')).toEqual([{ from: 14, to: 24 }]);
  expect(valuesOf(chart('si'), 'start')).toEqual([{ t: 4 }]);
});

test('without a steady stretch there is no gap, and a run that was under way has no start', () => {
  const unsteady = runTrace(run.trace, { ...run, startS: 0, steady: null, units: 'si' }) as TopLevelSpec;
  for (const name of ['gaps', 'steady', 'start']) expect([name, valuesOf(unsteady, name)]).toEqual([name, []]);
});

test('one curve alone is drawn, and none gives no chart', () => {
  const none = run.trace.elapsedS.map(() => null);
  const nothing = { elapsedS: run.trace.elapsedS, dewK: none, suctionLineK: none, bubbleK: none, liquidLineK: none };
  expect(runTrace(nothing, { ...run, units: 'ip' })).toBeNull();
  const alone = runTrace({ ...nothing, suctionLineK: run.trace.suctionLineK }, { ...run, units: 'si' });
  expect((valuesOf(alone as TopLevelSpec, 'readings') as object[])[0]).toMatchObject({ dew: null, suction: 21.85 });
});
