import type { LeakCheckRule } from './rule-set.ts';

/** Leak checks of equipment with fluorinated gases in the European Union. */
export const eu2024573: LeakCheckRule = {
  kind: 'leak-check',
  id: 'eu-2024-573',
  title: 'Regulation (EU) 2024/573, fluorinated gases',
  reference: 'eu-2024-573',
  jurisdiction: 'EU',
  from: { value: '2024-03-11', basis: 'from memory' },
  recordsYears: { value: 5, basis: 'second hand' },
  refrigerants: { value: 'fluorinated', basis: 'second hand' },
  co2eBands: {
    value: [
      { from: 500, everyMonths: 3 },
      { from: 50, everyMonths: 6 },
      { from: 5, everyMonths: 12 },
    ],
    basis: 'from memory',
  },
  massBands: {
    value: [
      { from: 100, everyMonths: 3 },
      { from: 10, everyMonths: 6 },
      { from: 1, everyMonths: 12 },
    ],
    basis: 'from memory',
  },
  detectionTimes: { value: 2, basis: 'from memory' },
  detectionFromCo2eT: { value: 500, basis: 'second hand' },
  hermeticBelow: { value: { co2eT: 10, massKg: 2, residentialKg: 3 }, basis: 'from memory' },
  recheckMonths: { value: 1, basis: 'second hand' },
};
