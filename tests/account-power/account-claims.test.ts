import { describe, expect, test } from 'vitest';
import { accountClaims } from './account-claims.ts';
import { conservationClaims } from './conservation-claims.ts';
import { judgedShops } from './judged-shop.ts';

// A small version of `npm run account-power`, whose limits leave room for chance.

const claims = accountClaims(7, 3000);
const figure = (what: string): number => {
  const found = claims.filter((claim) => claim.what.includes(what));
  if (found.length !== 1) throw new Error(`${found.length} claims on "${what}"`);
  expect(found[0].cases).toBeGreaterThan(10);
  return found[0].figure;
};

describe('mass is conserved, whatever is stolen, mistyped or written elsewhere', () => {
  test.each([
    'balances of every grouping add up to 0',
    'cylinders, refrigerants, crews and months add up to the total',
    'people and sites add up to what was charged',
    'a cylinder that was closed has nothing on hand',
    'what left a cylinder of which no other figure tells is what was written',
  ])('%s', (what) => {
    expect(figure(what)).toBe(1);
  });

  test('every weighing is booked once', () => {
    expect(claims.find(({ what }) => what.startsWith('every weighing is booked once'))?.figure).toBe(1);
  });

  test('a gram that is lost in the books is noticed', () => {
    const [shop] = judgedShops(7, 1);
    const { booked } = shop;
    const total = { ...booked.total, chargedKg: booked.total.chargedKg + 0.001 };
    const broken = conservationClaims(7, [{ ...shop, booked: { ...booked, total, weighings: booked.weighings - 1 } }]);
    expect(broken.filter((claim) => claim.figure < 1).map(({ what }) => what)).toEqual([
      'balances of every grouping add up to 0',
      'cylinders, refrigerants, crews and months add up to the total',
      'people and sites add up to what was charged, recovered and unexplained in all',
      'every weighing is booked once, or kept apart',
    ]);
  });
});

test('intervals of what is unexplained hold the truth', () => {
  expect(figure('honest cylinders, all')).toBeGreaterThan(0.9);
  expect(figure('honest cylinders, supply, closed and weighed')).toBeGreaterThan(0.9);
});

test('hardly anything is said of honest cylinders that are weighed by the book', () => {
  expect(figure('always whole on one scale, nothing pulled at it')).toBeLessThan(0.08);
});

test.each(['0.2 to 0.5', '0.5 to 1', '1 to 3'])('%s kg stolen are found, and how much', (kg) => {
  expect(figure(`${kg} kg stolen between two weighings, weights before and after tell: found`)).toBeGreaterThan(0.75);
  expect(figure(`${kg} kg stolen between two weighings: by so much`)).toBeLessThan(0.05);
});

test('weights that are mistyped by 50 g or more are mostly remarked upon', () => {
  for (const source of ['another figure by the series', 'another figure by the record', 'no other figure'])
    expect(figure(`mistyped weights, ${source}, by 50 g or more: the same`)).toBeGreaterThan(0.75);
});

test('weighings written for another cylinder are told to the right one or to none', () => {
  expect(
    figure('written for another cylinder, whole or without the empty weight: told to the right one'),
  ).toBeGreaterThan(0.25);
  expect(figure('written for another cylinder, whole or without the empty weight: told to a wrong one')).toBeLessThan(
    0.05,
  );
  expect(figure('of all that is called misplaced: wrong')).toBeLessThan(0.15);
});
