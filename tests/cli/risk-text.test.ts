import { expect, test } from 'vitest';
import { riskText } from '../../src/cli/risk-text.ts';
import type { RiskReport } from '../../src/pages/callback-data.ts';

const report: RiskReport = {
  jobs: 900,
  policyId: 'p',
  period: { from: '2026-01-01', to: '2026-06-01' },
  undated: 0,
  technicians: 3,
  crews: 1,
  callbacks: 60,
  counted: 50,
  uncounted: 10,
  withoutSystem: 0,
  fewest: 30,
  onRecord: { from: '2026-01-01', to: '2026-06-01' },
  lastDay: '2026-06-01',
  horizonDays: 365,
  windowDays: 90,
  openJobs: 400,
  baseRisk: 0.02,
  expected: 8,
  by: 'checks',
  record: null,
  noList: null,
  watchList: [],
};

test.each([
  [null, true],
  ['no-better', false],
  ['not-told', false],
  ['too-few', false],
] as const)('without a record, reason %j: whether risks are said to be a first order', (noList, isSaid) => {
  expect(riskText({ ...report, noList }).includes('as a first order')).toBe(isSaid);
});
