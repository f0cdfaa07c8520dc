import { describe, expect, test } from 'vitest';
import { chargeClaims } from './charge-claims.ts';
import { chargeTrials } from './charge-trial.ts';
import type { Claim } from './claim.ts';
import { runningClaims } from './running-claims.ts';
import { runningTrial } from './running-trial.ts';
import { weighInClaims } from './weigh-in-claims.ts';
import { weighInTrial } from './weigh-in-trial.ts';

const of = (count: number, kind?: Parameters<typeof runningTrial>[2]) =>
  Array.from({ length: count }, (_, index) => runningTrial(4, index + 1, kind));
const claims: readonly Claim[] = [
  ...weighInClaims(Array.from({ length: 1500 }, (_, index) => weighInTrial(4, index + 1))),
  ...chargeClaims(chargeTrials(1500, 4)),
  ...runningClaims(of(900), of(500, 'good-instruments'), of(500, 'other-refrigerant')),
];

/** Fewest trials that a claim rests on, and limits just outside what was measured on other seeds; goals are asked of `npm run truth`. */
const limits: Record<string, { readonly cases: number; readonly least?: number; readonly most?: number }> = {
  'mass by the series of the scale alone within one step': { cases: 1500, least: 0.84 },
  '… nothing disturbed the scale': { cases: 800, least: 0.97 },
  'mass by series and written figure within one step': { cases: 1500, least: 0.965 },
  'interval of the series holds the truth, nothing disturbed': { cases: 800, least: 0.95 },
  'mass within one step of the scale, all jobs': { cases: 1100, least: 0.86 },
  '… and no hose pulled': { cases: 450, least: 0.965 },
  'deviation within 6 g, scale of 5 g, length and adder right': { cases: 250, least: 0.9 },
  'deviation interval holds the truth': { cases: 1200, least: 0.92, most: 0.98 },
  'slip named right, where it changes more than 40 g': { cases: 80, least: 0.7 },
  '… and differs from every other slip by as much': { cases: 40, least: 0.85 },
  'slip invented on clean jobs': { cases: 1100, most: 0.01 },
  'superheat within 0.15 K, good clamps and gauges': { cases: 400, least: 0.95 },
  'subcooling within 0.15 K, the same': { cases: 200, least: 0.93 },
  'superheat interval holds the truth, usual clamps and gauges': { cases: 700, least: 0.88 },
  'subcooling interval holds the truth, the same': { cases: 400, least: 0.92 },
  'another refrigerant found, pressures more than 4 standard uncertainties apart': { cases: 150, least: 0.97 },
  'another refrigerant seen where there is none': { cases: 700, most: 0.005 },
  'pattern named where nothing is wrong': { cases: 500, most: 0.01 },
  'pattern restriction named': { cases: 20, least: 0.4 },
};

describe('charges and run tests against their truth', () => {
  test.each(Object.entries(limits))('%s', (what, { cases, least = 0, most = 1 }) => {
    const found = claims.find((claim) => claim.what === what);
    expect(found?.cases).toBeGreaterThanOrEqual(cases);
    expect(found?.figure).toBeGreaterThanOrEqual(least);
    expect(found?.figure).toBeLessThanOrEqual(most);
  });

  test('the same trials come out the same', () => {
    expect(weighInTrial(4, 7).facts).toEqual(weighInTrial(4, 7).facts);
    expect(runningTrial(4, 7).facts).toEqual(runningTrial(4, 7).facts);
    expect(runningTrial(5, 7).facts).not.toEqual(runningTrial(4, 7).facts);
  });
});
