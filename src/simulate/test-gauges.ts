import type { TestGauge } from './standing-test.ts';

const PSI_PA = 6894.757293168;
type Row = [number, number, number, number, number, number, number];

/** Number of the technician, step and noise [psi], gain and gain per kelvin [ratio], zero [psi], interval [s]. */
const rows: readonly Row[] = [
  [1, 0.1, 0.05, 0.001, 2e-5, 0.1, 10],
  [2, 1, 0.2, -0.004, 5e-5, 0, 15],
  [3, 1, 0.3, 0.006, -8e-5, -0.4, 5],
  [4, 1, 0.2, 0.002, 4e-5, 0.3, 10],
  [5, 5, 0.8, -0.008, 1e-4, 1.5, 30],
  [6, 1, 0.3, 0.003, 6e-5, 0, 10],
  [7, 0.1, 0.06, -0.002, -3e-5, -0.1, 5],
  [8, 1, 0.25, 0.005, 9e-5, 0.5, 15],
  [9, 1, 0.3, -0.003, -5e-5, 0, 2],
  [10, 0.1, 0.08, 0.004, 7e-5, 0.2, 10],
  [11, 5, 1, 0.01, -1e-4, -2, 20],
  [12, 1, 0.2, -0.005, 3e-5, -0.3, 15],
];

/** Gauges for pressure tests, one of each technician's: steps of 0.1 and 1 psi, and two read like a dial, in steps of 5. */
const testGauges: ReadonlyMap<string, TestGauge> = new Map(
  rows.map(([number, stepPsi, noisePsi, gainRatio, perKRatio, zeroPsi, intervalS]) => [
    `t${String(number).padStart(2, '0')}`,
    {
      stepPa: stepPsi * PSI_PA,
      noisePa: noisePsi * PSI_PA,
      gainRatio,
      perKRatio,
      zeroPa: zeroPsi * PSI_PA,
      intervalS,
    },
  ]),
);

/** From so long a hold on a reading every so many seconds at most: nobody logs a night every other second [s]. */
const coarserFrom = [
  [18_000, 60],
  [5_400, 30],
  [2_700, 10],
] as const;

/** The gauge that a technician, `t01` to `t12`, tests with, logging as often as suits a hold of that length [s]. */
export function testGaugeOf(technicianId: string, holdS: number): TestGauge {
  const gauge = testGauges.get(technicianId);
  if (gauge === undefined) throw new TypeError(`no gauge for pressure tests of ${technicianId}`);
  const [, coarserS = 0] = coarserFrom.find(([fromS]) => holdS >= fromS) ?? [];
  return { ...gauge, intervalS: Math.max(gauge.intervalS, coarserS) };
}
