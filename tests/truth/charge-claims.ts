import { chargeTarget } from '../../src/facts/charge/charge-target.ts';
import { slipHypotheses } from '../../src/facts/charge/slip-hypotheses.ts';
import type { ChargeTrial } from './charge-trial.ts';
import { type Claim, type ClaimCase, claim } from './claim.ts';

const grams = (kg: number | undefined) => (kg === undefined ? '–' : `${(1000 * kg).toFixed(0)} g`);
/** A slip that changes less, or no more than that from another slip, is nobody's to name [kg]. */
const tellingKg = 0.04;

/** What jobs of simulated fleets claim of their charge, beside the goals. */
export function chargeClaims(results: readonly ChargeTrial[]): Claim[] {
  const weighed = results.filter(({ truth, facts }) => (truth.drawn_kg ?? 0) > 0 && facts.drawn_kg !== undefined);
  const logged = weighed.filter(({ facts }) => facts.scale_drop_kg !== undefined);
  const coarse = logged.filter(({ job }) => (job.scale_step_kg ?? 0) >= 0.005);
  const isPulled = ({ truth }: ChargeTrial) => (truth.scale_upset ?? '').includes('hose');
  const judged = results.filter(
    ({ truth, facts }) => truth.charge_deviation_kg !== undefined && facts.charge_deviation_low_kg !== undefined,
  );
  const plain = judged.filter(
    ({ job, truth, facts }) =>
      job.scale_step_kg === 0.005 &&
      facts.line_adder_basis !== 'computed' &&
      Math.abs(truth.line_length_error_m ?? 0) <= 0.1 &&
      facts.hose_residual_basis !== 'assumed',
  );
  const clean = judged.filter(({ truth }) => truth.charge_slip === undefined);
  const slipped = judged.filter(({ truth }) => Math.abs(truth.charge_slip_kg ?? 0) > tellingKg);
  return [
    claim('mass within one step of the scale, all jobs', weighed.map(massCase), { least: 0.98 }),
    claim('… scale logged', logged.map(massCase), { least: 0.98 }),
    claim('… and its step 5 g or more', coarse.map(massCase), { least: 0.98 }),
    claim('… and no hose pulled', coarse.filter((one) => !isPulled(one)).map(massCase), { least: 0.98 }),
    claim('… only written down', weighed.filter((one) => !logged.includes(one)).map(massCase)),
    claim('deviation within 6 g, scale of 5 g, length and adder right', plain.map(withinCase)),
    claim('… scale logged', plain.filter((one) => logged.includes(one)).map(withinCase)),
    claim('… and nothing disturbed it', plain.filter(isUndisturbed).map(withinCase)),
    claim('deviation, median error, the same jobs', plain.map(errorCase), { write: (kg) => grams(kg) }),
    claim('deviation interval holds the truth', judged.map(coverCase), { least: 0.93, most: 0.99 }),
    claim('slip named right, where it changes more than 40 g', slipped.map(namedCase), { least: 0.85 }),
    claim('… and differs from every other slip by as much', slipped.filter(isApart).map(namedCase), { least: 0.85 }),
    claim('… named wrong', slipped.map(wrongCase)),
    claim('slip invented on clean jobs', clean.map(inventedCase), { most: 0.01 }),
  ];
}

function isUndisturbed({ plan, facts }: ChargeTrial): boolean {
  return plan.kind === 'undisturbed' && facts.scale_drop_kg !== undefined;
}

function massCase({ plan, job, truth, facts }: ChargeTrial): ClaimCase {
  const offKg = Math.abs((facts.drawn_kg ?? 0) - (truth.drawn_kg ?? 0));
  const value = offKg <= (job.scale_step_kg ?? 0) + 1e-9;
  const says = `true ${grams(truth.drawn_kg)}, found ${grams(facts.drawn_kg)} by ${facts.charged_from}, ${plan.kind}`;
  return { plan, value, badness: value ? 0 : offKg, says };
}

function errorKg({ truth, facts }: ChargeTrial): number {
  return Math.abs((facts.charge_deviation_kg ?? 0) - (truth.charge_deviation_kg ?? 0));
}

function withinCase(trial: ChargeTrial): ClaimCase {
  const value = errorKg(trial) <= 0.006;
  return { plan: trial.plan, value, badness: value ? 0 : errorKg(trial), says: deviationText(trial) };
}

function errorCase(trial: ChargeTrial): ClaimCase {
  return { plan: trial.plan, value: errorKg(trial), badness: 0, says: '' };
}

function coverCase(trial: ChargeTrial): ClaimCase {
  const { charge_deviation_low_kg: low = 0, charge_deviation_high_kg: high = 0 } = trial.facts;
  const trueKg = trial.truth.charge_deviation_kg ?? 0;
  const outside = Math.max(low - trueKg, trueKg - high);
  return { plan: trial.plan, value: outside <= 0, badness: outside, says: deviationText(trial) };
}

function namedCase(trial: ChargeTrial): ClaimCase {
  const value = trial.facts.charge_slip === trial.truth.charge_slip;
  return { plan: trial.plan, value, badness: value ? 0 : errorKg(trial) + 0.001, says: slipText(trial) };
}

function wrongCase(trial: ChargeTrial): ClaimCase {
  const { charge_slip: named } = trial.facts;
  const value = named !== undefined && named !== trial.truth.charge_slip;
  return { plan: trial.plan, value, badness: 0, says: slipText(trial) };
}

function inventedCase(trial: ChargeTrial): ClaimCase {
  const value = trial.facts.charge_slip !== undefined;
  return {
    plan: trial.plan,
    value,
    badness: value ? Math.abs(trial.truth.charge_deviation_kg ?? 0) : 0,
    says: slipText(trial),
  };
}

/** Whether no other slip would have put in nearly as much. */
function isApart({ job, lineSets, truth, facts }: ChargeTrial): boolean {
  const target = chargeTarget({ jobId: job.job_id, job, lineSets, weighings: [] });
  if ('problem' in target) return false;
  const wantedKg = facts.charge_wanted_kg ?? 0;
  const slippedKg = wantedKg + (truth.charge_slip_kg ?? 0);
  return slipHypotheses({
    target,
    refrigerant: job.refrigerant,
    wantedKg,
    preCharged: job.charge_basis === 'pre-charged',
    residualKg: facts.hose_residual_kg,
  }).every(({ slip, chargeKg }) => slip === truth.charge_slip || Math.abs(chargeKg - slippedKg) > tellingKg);
}

function deviationText({ plan, truth, facts }: ChargeTrial): string {
  return `true ${grams(truth.charge_deviation_kg)}, found ${grams(facts.charge_deviation_kg)} (${grams(facts.charge_deviation_low_kg)} to ${grams(facts.charge_deviation_high_kg)}), ${plan.kind}, hoses ${facts.hose_residual_basis}`;
}

function slipText(trial: ChargeTrial): string {
  const { truth, facts } = trial;
  return `true ${truth.charge_slip ?? 'none'} (${grams(truth.charge_slip_kg)}), named ${facts.charge_slip ?? 'none'} (${facts.slip_probability_ratio?.toFixed(2)}); ${deviationText(trial)}`;
}
