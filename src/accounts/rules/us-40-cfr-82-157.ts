import type { LeakRateRule } from './rule-set.ts';

/**
 * Leak repair of appliances with ozone-depleting refrigerants in the United States. Until 2020-04-09 it covered their substitutes too, which is
 * not put down here.
 */
export const us40Cfr82157: LeakRateRule = {
  kind: 'leak-rate',
  id: 'us-40-cfr-82-157',
  title: '40 CFR 82.157, ozone-depleting refrigerants',
  reference: '40-cfr-82-157',
  jurisdiction: 'US',
  from: { value: '2019-01-01', basis: 'rule text' },
  recordsYears: { value: 3, basis: 'second hand' },
  refrigerants: { value: 'ozone-depleting', basis: 'rule text' },
  leastChargeLb: { value: 50, basis: 'rule text' },
  excludedSectors: { value: [], basis: 'second hand' },
  triggers: {
    value: {
      comfort: 0.1,
      'light-commercial-comfort': 0.1,
      'residential-comfort': 0.1,
      'commercial-refrigeration': 0.2,
      'industrial-process': 0.3,
      transport: 0.1,
    },
    basis: 'rule text',
  },
  repairDays: { value: 30, basis: 'second hand' },
  shutdownRepairDays: { value: 120, basis: 'second hand' },
  followUpDays: { value: 10, basis: 'from memory' },
  planDays: { value: 30, basis: 'from memory' },
  inspections: {
    value: [
      { sectors: ['commercial-refrigeration', 'industrial-process'], fromLb: 500, everyMonths: 3 },
      {
        sectors: [
          'commercial-refrigeration',
          'industrial-process',
          'comfort',
          'light-commercial-comfort',
          'residential-comfort',
          'transport',
        ],
        fromLb: 50,
        everyMonths: 12,
      },
    ],
    basis: 'from memory',
  },
  chronicRatio: { value: 1.25, basis: 'second hand' },
  chronicReportOn: { value: '03-01', basis: 'second hand' },
};
