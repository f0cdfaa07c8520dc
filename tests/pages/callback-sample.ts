import type {
  CallbackEntry,
  CallbackReport,
  CallbackSummary,
  RiskReport,
  WatchedJob,
} from '../../src/pages/callback-data.ts';
import { revisitText } from '../../src/pages/revisit-text.ts';

const summary: CallbackSummary = {
  policyId: 'as-recorded',
  period: { from: '2025-07-01', to: '2026-03-22' },
  jobs: 563,
  undated: 2,
  technicians: 8,
  crews: 4,
  lastDay: '2026-03-22',
  onRecord: { from: '2025-07-09', to: '2026-03-21' },
  horizonDays: 365,
  callbacks: 41,
  counted: 33,
  uncounted: 4,
  withoutSystem: 0,
  fewest: 30,
};

const told = [
  { cause: 'commissioning', by: 'cause-found', words: 'flare leaked' },
  { cause: 'other', by: 'cause-found', words: 'capacitor' },
  { cause: 'unknown', by: 'nothing', words: '' },
] as const;

/** Callbacks, the latest first, of jobs of which some have a page, some none, and some are not known. */
function entries(): CallbackEntry[] {
  return Array.from({ length: 18 }, (_, at): CallbackEntry => {
    const cause = told[at % 3];
    const isTraced = at % 6 !== 5;
    return {
      callbackId: `C-${700 - at}`,
      reportedAt: `2026-03-${String(21 - at).padStart(2, '0')}T09:30:00-05:00`,
      cause,
      reason: 'no cooling',
      causeFound: cause.words === '' ? null : cause.words,
      cost: at % 4 === 3 ? null : 180 + 35 * at,
      refrigerantAddedKg: at % 3 === 0 ? 0.4 : null,
      systemId: isTraced ? `S-${4400 + at}` : null,
      tracedBy: isTraced ? 'system' : 'not-named',
      jobId: isTraced ? (at === 0 ? 'J-20899' : `J-${20_300 + at}`) : null,
      daysAfter: isTraced ? 6 + 11 * at : null,
      technician: isTraced ? { kind: 'technician', id: 't-2', name: 'Cy Marsh' } : null,
      isRepeat: at === 7,
      findings: at % 2 === 0 ? ['rise-over-limit', 'wet'] : [],
    };
  });
}

/** Made-up callbacks of a made-up shop. */
export function callbackSample(): CallbackReport {
  const ages = [30, 90, 365];
  const group = (name: 'flagged' | 'clean' | 'not-judged', jobs: number, callbacks: number, shares: number[]) => ({
    group: name,
    jobs,
    callbacks,
    shares: ages.map((ageDays, at) => ({
      ageDays,
      share: shares[at] ?? null,
      low: shares[at] === undefined ? null : shares[at] * 0.6,
      high: shares[at] === undefined ? null : shares[at] * 1.6,
      watched: Math.round(jobs / (at + 2)),
    })),
  });
  return {
    ...summary,
    traced: { job: 6, system: 27, 'not-named': 4, 'no-work-before': 1, 'beyond-horizon': 3 },
    repeats: 1,
    causes: [
      {
        cause: 'commissioning',
        callbacks: 21,
        cost: 7040,
        costed: 17,
        refrigerantAddedKg: 9.2,
        medianDays: 44,
        reasons: [{ text: 'flare leaked', callbacks: 12, cost: 4100 }],
      },
      {
        cause: 'other',
        callbacks: 12,
        cost: 2100,
        costed: 9,
        refrigerantAddedKg: 0,
        medianDays: 71,
        reasons: [{ text: 'capacitor', callbacks: 8, cost: 1500 }],
      },
      { cause: 'unknown', callbacks: 8, cost: 0, costed: 0, refrigerantAddedKg: 0, medianDays: null, reasons: [] },
    ],
    free: {
      groups: [
        group('flagged', 171, 19, [0.04, 0.09, 0.17]),
        group('clean', 310, 11, [0.01, 0.02, 0.05]),
        group('not-judged', 82, 3, [0.01, 0.03]),
      ],
      logRank: { observed: 17, expected: 9.4, variance: 5.1, statistic: 11.3, chance: 0.0008 },
      isWeighted: true,
    },
    prevented: { visits: 14, callbacks: { expected: 2.6, low: 1.2, high: 5.1 }, allTheSame: 1 },
    limit: 1 / 30,
    forerunners: { by: 'groups', told: [], tooRare: [], beyond: [] },
    entries: entries(),
  };
}

/** An open job of the watch list. */
function watched(jobId: string, times: number): WatchedJob {
  return {
    jobId,
    systemId: 'S-4410',
    siteId: 'P-118',
    refrigerant: 'R-454B',
    technician: { kind: 'technician', id: 't-2', name: 'Cy Marsh' },
    day: '2026-03-02',
    ageDays: 20,
    risk: { risk: 0.031 * times, low: 0.02 * times, high: 0.047 * times },
    times,
    findings: [{ checkId: 'wet', text: 'The rise levels off near 1 200 µm.', ratio: 2.4 }],
    onSite: [revisitText('moisture'), revisitText('charge')],
  };
}

/** A made-up watch list: one job that was flagged last week, one that asks for a visit by its risk alone, one that does not. */
export function riskSample(): RiskReport {
  return {
    ...summary,
    windowDays: 90,
    openJobs: 388,
    baseRisk: 0.031,
    by: 'groups',
    record: null,
    noList: null,
    expected: 12.1,
    watchList: [watched('J-20931', 4.2), watched('J-20644', 3.1), watched('J-20701', 1.4)],
  };
}
