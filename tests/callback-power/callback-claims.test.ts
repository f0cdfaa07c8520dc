import { describe, expect, test } from 'vitest';
import type { Claim } from '../truth/claim.ts';
import { chanceClaims, ratioClaims } from './forerunner-claims.ts';
import { riskClaims } from './risk-claims.ts';
import { savingClaims } from './saving-claims.ts';
import { visitClaims } from './visit-claims.ts';

// A small version of `npm run callback-power`, whose limits leave room for chance.

const claimOf = (claims: readonly Claim[], what: string): Claim => {
  const found = claims.find((claim) => claim.what.includes(what));
  if (found === undefined) throw new Error(`no claim on "${what}"`);
  return found;
};

test('intervals of hazard ratios hold the true ones', () => {
  const claims = ratioClaims(7, 6).filter(({ what }) => what.endsWith('all findings'));
  expect(claims).toHaveLength(5);
  const cases = claims.reduce((sum, { cases: each }) => sum + each, 0);
  const held = claims.reduce((sum, { figure, cases: each }) => sum + figure * each, 0);
  expect(cases).toBeGreaterThan(150);
  expect(held / cases).toBeGreaterThan(0.89);
}, 120_000);

test('where nothing foretells callbacks hardly anything is said to', () => {
  const claims = chanceClaims(7, 8);
  const named = claims.reduce((sum, { figure, cases }) => sum + figure * cases, 0);
  // Of 48 fleets 2.4 are to be expected at most.
  expect(named).toBeLessThan(8);
}, 120_000);

describe('risks', () => {
  const claims = riskClaims(7, 4);
  const planted = 'some 1100 over three years';

  test('are as far apart as callbacks, and better than the age of the jobs', () => {
    expect(claimOf(claims, `${planted}: calibration slope`).figure).toBeGreaterThan(0.75);
    expect(claimOf(claims, `${planted}: calibration slope`).figure).toBeLessThan(1.25);
    expect(claimOf(claims, `${planted}: came over expected`).figure).toBeGreaterThan(0.85);
    expect(claimOf(claims, `${planted}: came over expected`).figure).toBeLessThan(1.15);
    expect(claimOf(claims, `${planted}: Brier`).figure).toBe(1);
  });

  test('are no better where nothing foretells callbacks: the claim can fail', () => {
    expect(claimOf(claims, 'nothing foretells them: Brier').figure).toBeLessThan(0.75);
  });
}, 120_000);

test('sheets promise what would be saved, and hardly ever what would not', () => {
  const claims = savingClaims(7, 15);
  expect(claimOf(claims, 'its interval holds the truth').figure).toBeGreaterThan(0.7);
  expect(claimOf(claims, 'it is sure that some would be').figure).toBeGreaterThan(0.8);
  for (const { what, figure } of claims) if (what.includes('surely promises')) expect(figure).toBeLessThan(0.2);
}, 120_000);

test('visits that findings prompt do not hide callbacks', () => {
  const claims = visitClaims(7, 12);
  expect(claimOf(claims, 'told over true, median').figure).toBeGreaterThan(0.85);
  expect(claimOf(claims, 'told over true, median').figure).toBeLessThan(1.15);
  expect(claimOf(claims, 'visits hid').figure).toBeGreaterThan(0.75);
  expect(claimOf(claims, 'visits hid').figure).toBeLessThan(1.3);
}, 120_000);
