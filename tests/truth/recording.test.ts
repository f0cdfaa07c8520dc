import { describe, expect, test } from 'vitest';
import { recordingClaims } from './recording-claims.ts';
import { recordingFaults } from '../../src/simulate/mishaps/recording-faults.ts';
import { cleanTrials, faultyTrials } from './recording-trial.ts';

const claims = recordingClaims(cleanTrials(900, 5), faultyTrials(70, 5, recordingFaults));

/** Fewest trials that a claim rests on, and limits just outside what was measured on other seeds. */
const limits: Record<string, { readonly cases: number; readonly least?: number; readonly most?: number }> = {
  'gaps seen where the recorder left out nothing': { cases: 650, most: 0.005 },
  'clock: a jump seen where there is none': { cases: 800, most: 0.005 },
  'stuck-sensor: one seen where there is none': { cases: 800, most: 0.005 },
  'wrong-unit: one seen where there is none': { cases: 800, most: 0.005 },
  'off-range: beyond use where nothing is': { cases: 800, most: 0.005 },
  'vacuum in microns': { cases: 50, least: 0.9 },
  'vacuum in Torr': { cases: 50, least: 0.85 },
  'vacuum in mbar': { cases: 50, least: 0.85 },
  'vacuum in kPa': { cases: 50, least: 0.85 },
  'vacuum in Torr from the air on': { cases: 40, least: 0.95 },
  'vacuum in mbar from the air on': { cases: 40, least: 0.95 },
  'test in psi': { cases: 35, least: 0.95 },
  'test in bar': { cases: 35, least: 0.95 },
  'times in minutes': { cases: 50, least: 0.85 },
  'times in milliseconds': { cases: 50, least: 0.9 },
  'clock 60 min ahead, pull-down': { cases: 50, least: 0.5 },
  'clock 10 min back, pull-down': { cases: 35, least: 0.6 },
  '30 % of the pressure test left out': { cases: 35, least: 0.9 },
  '70 % of the rise test left out': { cases: 45, least: 0.9 },
};

describe('checks of the recording against logs that were tampered with', () => {
  test.each(Object.entries(limits))('%s', (what, { cases, least = 0, most = 1 }) => {
    const found = claims.find((claim) => claim.what === what);
    expect(found?.cases).toBeGreaterThanOrEqual(cases);
    expect(found?.figure).toBeGreaterThanOrEqual(least);
    expect(found?.figure).toBeLessThanOrEqual(most);
  });

  test('every fault is tried on some log, so that its power is measured', () => {
    const tried = new Set(claims.map(({ what }) => what));
    for (const { name } of recordingFaults) expect(tried).toContain(name);
  });
});
