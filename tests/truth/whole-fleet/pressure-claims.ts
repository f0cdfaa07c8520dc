import type { Truth } from '../../../src/simulate/truth.ts';
import { type Claim, claim } from '../claim.ts';
import type { FleetJob } from './judged-fleet.ts';
import { coverageClaim } from './named-claims.ts';

const PSI_PA = 6894.757293168;
const psi = (pa: number | undefined) => (pa === undefined ? '–' : `${(pa / PSI_PA).toFixed(2)} psi`);

/** What the facts and the check of standing pressure tests say beside the truth; the goals are those of drawn ones. */
export function pressureClaims(jobs: readonly FleetJob[]): Claim[] {
  const logged = jobs.filter(({ truth }) => truth.pressure_test === 'logged' && truth.pressure_drop_pa !== undefined);
  const tight = logged.filter(({ truth }) => !isLeaking(truth));
  const isFailed = ({ findings }: FleetJob) => findings.get('pressure-not-held')?.outcome === 'fail';
  return [
    claim('standing hold found, both ends within max(5 s, 2.5 intervals)', logged.map(holdCase)),
    coverageClaim('drop interval holds the truth', logged.map(dropCase), { least: 0.93, most: 0.97 }),
    claim(
      'tight systems failed',
      tight.map((one) => ({
        plan: one.plan,
        value: isFailed(one),
        badness: isFailed(one) ? 1 : 0,
        says: dropText(one),
      })),
      { most: 0.01 },
    ),
    claim(
      'leaks that lost at least the smallest visible drop failed',
      logged.filter(isVisibleDrop).map((one) => ({
        plan: one.plan,
        value: isFailed(one),
        badness: isFailed(one) ? 0 : judgedDropPa(one),
        says: dropText(one),
      })),
    ),
  ];
}

function holdCase({ plan, truth, facts }: FleetJob) {
  const { pressure_hold_start_s: startS, pressure_hold_end_s: endS } = facts;
  const isTold = startS !== undefined && endS !== undefined;
  const offS = isTold
    ? Math.max(Math.abs(startS - (truth.pressure_hold_start_s ?? 0)), Math.abs(endS - (truth.pressure_hold_end_s ?? 0)))
    : 1;
  // Of the interval between readings the record says nothing: the hold has nearly all of them.
  const intervalS = isTold ? (endS - startS) / (facts.pressure_readings ?? 1) : 0;
  const value = isTold && offS <= Math.max(5, 2.5 * intervalS);
  const says = `true ${truth.pressure_hold_start_s?.toFixed(0)}–${truth.pressure_hold_end_s?.toFixed(0)} s, found ${startS?.toFixed(0)}–${endS?.toFixed(0)} s`;
  return { plan, value, badness: value ? 0 : offS, says, isUntold: !isTold };
}

/** What was lost over the part of the hold that is judged: at any time the same share a second of what is left [Pa]. */
function judgedDropPa({ truth, facts }: FleetJob): number {
  const { pressure_hold_start_s: fromS = 0, pressure_hold_end_s: toS = 0, pressure_drop_pa: dropPa = 0 } = truth;
  const { pressure_settled_s: settledS = fromS, pressure_hold_end_s: endS = toS, held_test_pa: heldPa } = facts;
  const [beforeRatio, judgedRatio] = [settledS - fromS, Math.min(endS, toS) - settledS].map((s) => s / (toS - fromS));
  if (heldPa === undefined) return dropPa * judgedRatio;
  let startPa = heldPa;
  let leftRatio = 1;
  for (let round = 0; round < 5; round += 1) {
    leftRatio = Math.max(0.01, 1 - dropPa / startPa);
    startPa = heldPa / leftRatio ** beforeRatio;
  }
  return heldPa * (1 - leftRatio ** judgedRatio);
}

/** Whether there was anything to lose by. */
export function isLeaking({ pressure_leak_mol_per_s: leak = 0 }: Truth): boolean {
  return leak > 0;
}

/** Whether what was lost is as much as the test says that it could have told. */
export function isVisibleDrop(one: FleetJob): boolean {
  const { smallest_drop_seen_pa: smallestPa } = one.facts;
  return isLeaking(one.truth) && smallestPa !== undefined && judgedDropPa(one) >= smallestPa;
}

function dropCase(one: FleetJob) {
  const { pressure_drop_low_pa: low, pressure_drop_high_pa: high } = one.facts;
  return { plan: one.plan, truth: judgedDropPa(one), low, high, says: dropText(one) };
}

function dropText(one: FleetJob): string {
  const { facts, findings } = one;
  const { message = 'no finding' } = findings.get('pressure-not-held') ?? {};
  return `true ${psi(judgedDropPa(one))}, found ${psi(facts.pressure_drop_pa)} (${psi(facts.pressure_drop_low_pa)} to ${psi(facts.pressure_drop_high_pa)}), sees ${psi(facts.smallest_drop_seen_pa)}: ${message}`;
}
