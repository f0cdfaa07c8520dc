import { expect, test } from 'vitest';
import { holdLine } from '../../src/cli/hold-line.ts';
import { serviceManagerSample } from '../pages/service-manager-sample.ts';

const [sample] = serviceManagerSample().lookAt;
if (!sample?.pressureTest) throw new Error('the sample has no pressure test');
const { pressureTest } = sample;
const psi = 6894.757;

/** The line of a hold whose corrected pressure ends so many psi below where it began. */
function lineOf(dropPsi: number, readings = 9): string {
  const places = Array.from({ length: readings }, (_, index) => index / (readings - 1));
  const corrected = {
    elapsedS: places.map((place) => 690 + 3300 * place),
    expectedPa: places.map(() => 450 * psi),
    besidePa: places.map((place) => -dropPsi * psi * place),
  };
  return holdLine({ ...pressureTest, corrected }, 'ip', 40)[1] ?? '';
}

test('a tight hold is flat and a leaking one slopes, without gaps however few the readings', () => {
  expect(lineOf(0)).toMatch(/^(.)\1{39}$/u);
  expect(lineOf(4, 3)).toMatch(/^█+▇+▆+▅+▄+▃+▂+▁+$/u);
  expect(lineOf(4)).toHaveLength(40);
  // Half a psi is a quarter of the 2 psi that the bars span at least.
  expect(new Set(lineOf(0.5)).size).toBeLessThanOrEqual(3);
});

test('says what the bars are; as read where temperature could not be taken out', () => {
  expect(holdLine(pressureTest, 'ip', 40)[0]).toMatch(
    /^judged hold after settling, temperature taken out; the bars span 2\.\d\d psi$/,
  );
  const [words, line] = holdLine({ ...pressureTest, corrected: null }, 'si', 40);
  expect(words).toMatch(/, as read; the bars span [\d.]+ bar$/);
  expect(line).toMatch(/^[▁▂▃▄▅▆▇█]{40}$/u);
});

test('no line without a hold, or of two readings', () => {
  expect(holdLine({ ...pressureTest, judged: null }, 'ip', 40)).toEqual([]);
  expect(lineOf(1, 2)).toBe('');
});
