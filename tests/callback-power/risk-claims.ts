import { lookBack, type RiskRecord, speaksForList } from '../../src/fleet/callbacks/risk-record.ts';
import { type Claim, type ClaimGoal, claim } from '../truth/claim.ts';
import { horizonDays } from './drawn-callbacks.ts';
import { forerunnersOf } from './forerunner-claims.ts';
import { crew, drawn, hazard, type Plan, ratios } from './drawn-plans.ts';

/** Fleets whose risks are held against what came after the days on which they were given. */
export function riskClaims(seed: number, runs: number): Claim[] {
  const three = { ...ratios, charge: 2 } as const;
  const kinds: readonly [string, Plan, ClaimGoal][] = [
    [
      'some 400 callbacks over two years',
      {
        fleet: { ...crew, jobsEach: 160, base: 0.2, overDays: 730, spread: 0.6 },
        hazard,
        ratios: three,
        frailty: 0.3,
        revisits: { evacuation: 1 },
      },
      { least: 0.95 },
    ],
    [
      'some 1100 over three years',
      {
        fleet: { ...crew, jobsEach: 300, base: 0.2, overDays: 1095, spread: 0.6 },
        hazard,
        ratios: three,
        frailty: 0.3,
      },
      { least: 0.95 },
    ],
    [
      'some 250 over two years, nothing foretells them',
      { fleet: { ...crew, jobsEach: 120, base: 0.2, overDays: 730, spread: 0.6 }, hazard: 0.2 },
      {},
    ],
  ];
  return kinds.flatMap(([kind, plan, better], at) => {
    const records = drawn(seed + 1000 * at, runs, plan).flatMap(({ number, fleet }) => {
      const { jobs, courses, toDay } = fleet;
      const record = lookBack(jobs, courses, { fromDay: jobs.days[0], toDay, horizonDays }, 90);
      const isListed = speaksForList(
        record,
        forerunnersOf(fleet).some(({ isForerunner }) => isForerunner),
      );
      return record === undefined ? [] : [{ number, record, isListed }];
    });
    const isPlanted = plan.ratios !== undefined;
    const figure = (what: string, of: (record: RiskRecord) => number, goal: ClaimGoal): Claim =>
      claim(
        `${kind}: ${what}`,
        records.map(({ number, record }) => ({
          plan: { seed, number, kind },
          value: of(record),
          badness: 0,
          says: '',
        })),
        { write: (value) => value.toFixed(3), ...goal },
      );
    const tenths = Array.from({ length: 10 }, (_, tenth) => {
      const [observed, expected] = (['observed', 'expected'] as const).map((which) =>
        records.reduce((sum, { record }) => sum + record.tenths[tenth][which], 0),
      );
      return claim(
        `${kind}: tenth ${tenth + 1} of the risks, came over expected, all fleets together`,
        [{ plan: { seed, number: tenth, kind }, value: observed / expected, badness: 0, says: '' }],
        { write: (value) => value.toFixed(2), ...(isPlanted ? { least: 0.8, most: 1.25 } : {}) },
      );
    });
    return [
      figure(
        'calibration slope, median',
        ({ slope }) => slope?.slope ?? Number.NaN,
        isPlanted ? { least: 0.8, most: 1.2 } : {},
      ),
      figure('came over expected, median', ({ observed, expected }) => observed / expected, { least: 0.9, most: 1.1 }),
      ...tenths,
      claim(
        `${kind}: there is a list`,
        records.map(({ number, isListed }) => ({
          plan: { seed, number, kind },
          value: isListed,
          badness: 0,
          says: '',
        })),
        isPlanted ? { least: 0.95 } : {},
      ),
      claim(
        `${kind}: Brier score better than by age alone`,
        records.map(({ number, record }) => ({
          plan: { seed, number, kind },
          value: record.brier < record.baseBrier,
          badness: 0,
          says: '',
        })),
        better,
      ),
    ];
  });
}
