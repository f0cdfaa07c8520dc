import type { Facts } from '../../src/records/tables/facts.ts';
import type { Truth } from '../../src/simulate/truth.ts';
import { type Claim, type ClaimCase, claim, type TrialName } from './claim.ts';

/** A log with its truth: of a drawn evacuation, or of a job of a fleet. */
export interface IsolationCase {
  readonly plan: TrialName & {
    readonly isolated: boolean;
    readonly marked: boolean;
    readonly gauge: { readonly intervalS: number };
  };
  readonly facts: Partial<Facts>;
  readonly truth: Pick<Truth, 'isolation_start_s' | 'isolation_end_s' | 'pulls'> & {
    readonly shape?: { readonly shape: string };
  };
}

const seconds = (value: number | undefined) => (value === undefined ? 'none' : `${value.toFixed(1)} s`);

/** Whether isolations are found where they were, their ends too, and the pulls counted. */
export function isolationClaims(results: readonly IsolationCase[]): Claim[] {
  const isolated = results.filter(({ plan }) => plan.isolated);
  const found = isolated.filter(({ facts }) => facts.isolation_start_s !== undefined);
  const never = results.filter(({ plan }) => !plan.isolated);
  const missed = isolated.map((one) => presence(one, one.facts.isolation_start_s === undefined));
  return [
    claim('isolation start within max(5 s, 2.5 intervals)', found.map(startCase), { least: 0.99 }),
    claim('… or its interval is wider and holds it', found.map(startOrHonestCase), { least: 0.99 }),
    claim('… marked alone', found.filter(({ plan }) => plan.marked).map(startCase)),
    claim('… unmarked alone', found.filter(({ plan }) => !plan.marked).map(startCase)),
    claim('… interval holds the true start', found.map(coverCase), { least: 0.93 }),
    claim('… width of that interval, median', found.map(widthCase), { write: (value) => `${value.toFixed(1)} s` }),
    claim('isolation end within max(5 s, 2.5 intervals)', found.map(endCase), { least: 0.99 }),
    claim('isolations missed', missed, { most: 0.01 }),
    claim(
      '… unmarked alone',
      missed.filter(({ plan }) => !plan.marked),
    ),
    claim(
      'isolations invented',
      never.map((one) => presence(one, one.facts.isolation_start_s !== undefined)),
      { most: 0.01 },
    ),
    claim('pulls right', results.map(pullsCase), { least: 0.99 }),
  ];
}

function toleranceS({ plan }: IsolationCase): number {
  return Math.max(5, 2.5 * plan.gauge.intervalS);
}

/** Whether an isolation is found where it was; not where none was. */
export function isNearStart(one: IsolationCase): boolean {
  const { isolation_start_s: foundS } = one.facts;
  const { isolation_start_s: trueS } = one.truth;
  return foundS !== undefined && trueS !== undefined && Math.abs(foundS - trueS) <= toleranceS(one);
}

function startCase(result: IsolationCase): ClaimCase {
  const { plan, facts, truth } = result;
  const offS = (facts.isolation_start_s as number) - (truth.isolation_start_s as number);
  const value = isNearStart(result);
  const says = `true ${seconds(truth.isolation_start_s)}, found ${seconds(facts.isolation_start_s)} (${seconds(facts.isolation_start_low_s)} to ${seconds(facts.isolation_start_high_s)}), off ${seconds(offS)}`;
  return { plan, value, badness: value ? 0 : Math.abs(offS), says };
}

function startOrHonestCase(result: IsolationCase): ClaimCase {
  const plain = startCase(result);
  const { facts } = result;
  const startS = facts.isolation_start_s as number;
  const lowS = facts.isolation_start_low_s ?? startS;
  const highS = facts.isolation_start_high_s ?? startS;
  const wide = Math.max(startS - lowS, highS - startS) > toleranceS(result);
  const value = plain.value === true || (wide && coverCase(result).value === true);
  return { ...plain, value, badness: value ? 0 : plain.badness };
}

function coverCase(result: IsolationCase): ClaimCase {
  const { facts, truth } = result;
  const trueS = truth.isolation_start_s as number;
  const lowS = facts.isolation_start_low_s ?? Number.NaN;
  const highS = facts.isolation_start_high_s ?? Number.NaN;
  const value = trueS >= lowS && trueS <= highS;
  return { ...startCase(result), value, badness: value ? 0 : Math.max(lowS - trueS, trueS - highS) };
}

function widthCase(result: IsolationCase): ClaimCase {
  const { facts } = result;
  const value = (facts.isolation_start_high_s ?? Number.NaN) - (facts.isolation_start_low_s ?? Number.NaN);
  return { ...startCase(result), value, badness: 0 };
}

function endCase(result: IsolationCase): ClaimCase {
  const { plan, facts, truth } = result;
  const offS = (facts.isolation_end_s ?? Number.NaN) - (truth.isolation_end_s as number);
  const value = Math.abs(offS) <= toleranceS(result);
  const says = `true ${seconds(truth.isolation_end_s)}, found ${seconds(facts.isolation_end_s)}, off ${seconds(offS)}`;
  return { plan, value, badness: value ? 0 : Math.abs(offS), says };
}

function presence({ plan, facts, truth }: IsolationCase, value: boolean): ClaimCase {
  const says = `true ${seconds(truth.isolation_start_s)}, found ${seconds(facts.isolation_start_s)}, ${truth.shape?.shape ?? 'absent'}, pumped until ${facts.pumped_until ?? '?'}`;
  return { plan, value, badness: value ? 1 : 0, says };
}

function pullsCase({ plan, facts, truth }: IsolationCase): ClaimCase {
  const offBy = Math.abs((facts.pulls ?? 0) - (truth.pulls ?? 0));
  return { plan, value: offBy === 0, badness: offBy, says: `true ${truth.pulls}, found ${facts.pulls ?? 'none'}` };
}
