import type { LeakCheckRule } from './rule-set.ts';

/** Leak checks of equipment with ozone-depleting substances in the European Union. */
export const eu10052009: LeakCheckRule = {
  kind: 'leak-check',
  id: 'eu-1005-2009',
  title: 'Regulation (EC) 1005/2009, Article 23 (since 2024 Regulation (EU) 2024/590), ozone-depleting substances',
  reference: 'eu-1005-2009',
  jurisdiction: 'EU',
  from: { value: '2010-01-01', basis: 'from memory' },
  recordsYears: { value: 5, basis: 'from memory' },
  refrigerants: { value: 'ozone-depleting', basis: 'second hand' },
  massBands: {
    value: [
      { from: 300, everyMonths: 3 },
      { from: 30, everyMonths: 6 },
      { from: 3, everyMonths: 12 },
    ],
    basis: 'second hand',
  },
  repairDays: { value: 14, basis: 'second hand' },
};
