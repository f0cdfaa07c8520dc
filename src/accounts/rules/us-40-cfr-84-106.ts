import type { LeakRateRule } from './rule-set.ts';

/** Leak repair of appliances with hydrofluorocarbons and their substitutes in the United States. */
export const us40Cfr84106: LeakRateRule = {
  kind: 'leak-rate',
  id: 'us-40-cfr-84-106',
  title: '40 CFR 84.106 and 84.108, hydrofluorocarbons and substitutes',
  reference: '40-cfr-84-106',
  jurisdiction: 'US',
  from: { value: '2026-01-01', basis: 'second hand' },
  recordsYears: { value: 3, basis: 'second hand' },
  refrigerants: { value: 'hydrofluorocarbons', basis: 'second hand' },
  gwpOver: { value: 53, basis: 'second hand' },
  leastChargeLb: { value: 15, basis: 'second hand' },
  excludedSectors: { value: ['residential-comfort', 'light-commercial-comfort'], basis: 'second hand' },
  triggers: {
    value: {
      comfort: 0.1,
      'light-commercial-comfort': 0.1,
      'residential-comfort': 0.1,
      'commercial-refrigeration': 0.2,
      'industrial-process': 0.3,
      transport: 0.1,
    },
    basis: 'second hand',
  },
  repairDays: { value: 30, basis: 'second hand' },
  shutdownRepairDays: { value: 120, basis: 'second hand' },
  followUpDays: { value: 10, basis: 'from memory' },
  planDays: { value: 30, basis: 'from memory' },
  inspections: {
    value: [
      { sectors: ['commercial-refrigeration', 'industrial-process'], fromLb: 500, everyMonths: 3 },
      {
        sectors: ['commercial-refrigeration', 'industrial-process', 'comfort', 'transport'],
        fromLb: 15,
        everyMonths: 12,
      },
    ],
    basis: 'from memory',
  },
  chronicRatio: { value: 1.25, basis: 'second hand' },
  chronicReportOn: { value: '03-01', basis: 'second hand' },
  detection: {
    value: {
      sectors: ['commercial-refrigeration', 'industrial-process'],
      fromLb: 1500,
      newFrom: '2026-01-01',
      newDays: 30,
      olderFrom: '2017-01-01',
      olderBy: '2027-01-01',
    },
    basis: 'from memory',
  },
  // One page alone tells of it.
  firstAdditionDays: { value: 365, basis: 'second hand' },
};
