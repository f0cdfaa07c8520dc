import type { Facts } from '../../records/tables/facts.ts';
import type { Job } from '../../records/tables/jobs.ts';
import type { JobRecords } from '../job-material.ts';
import { meantRefrigerant } from '../known-saturation.ts';
import { chargeCostFacts } from './charge-cost.ts';
import { type KnownDeviation, chargeSlipFacts } from './charge-slip.ts';
import { type ChargeTarget, chargeTarget, chargeTargetFacts } from './charge-target.ts';
import { type HoseResidual, hoseResidual } from './hose-residual.ts';
import { massProblem } from './mass-problem.ts';
import { type Drawn, drawnMass, recordedResidual } from './weigh-in.ts';

type ChargeProblem = NonNullable<Facts['charge_problem']>;

/** Work on which refrigerant is put in. */
const chargingWork: ReadonlySet<string | undefined> = new Set([
  'install',
  'replace',
  'repair',
  'recharge',
  'retrofit',
  undefined,
]);
const noResidual: HoseResidual = { kg: 0, lowKg: 0, highKg: 0, basis: 'recorded' };

/**
 * The system's target, what went in, how far that is from what should have, why, and what it costs.
 *
 * @param measured the facts of the job's readings: what the scale's series tells
 */
export function chargeFacts(records: JobRecords, measured: Partial<Facts> = {}): Partial<Facts> {
  const { job } = records;
  if (job === undefined) return {};
  const target = chargeTarget(records);
  const drawn = drawnMass(records, measured);
  const known: Partial<Facts> = {
    ...('kg' in target ? chargeTargetFacts(target, job.refrigerant) : {}),
    ...weighedRefrigerantFacts(records),
  };
  if (drawn === undefined)
    return { ...known, charge_problem: chargingWork.has(job.work_type) ? 'no-weigh-in' : 'no-charging-work' };
  // Nothing weighed, nothing in the hoses.
  const residual = drawn.kg === 0 ? noResidual : hoseResidual(job, recordedResidual(records));
  const facts = { ...known, ...drawnFacts(drawn, residual) };
  const problem = massProblem(drawn, residual, measured, 'kg' in target ? target.kg : job.factory_charge_kg);
  if (problem !== undefined) return { ...facts, charge_problem: problem };
  if ('problem' in target) return { ...facts, charge_problem: target.problem };
  if (isAbsurdAdder(facts.adder_ratio)) return { ...facts, charge_problem: 'absurd-adder' };
  const wanted = wantedMass(job, target);
  if ('problem' in wanted) return { ...facts, charge_problem: wanted.problem };
  const deviation = deviationOf(drawn, residual, target, wanted.kg);
  return {
    ...facts,
    charge_wanted_kg: wanted.kg,
    charge_deviation_kg: deviation.kg,
    charge_deviation_low_kg: deviation.middleKg - 1.96 * deviation.uncertaintyKg,
    charge_deviation_high_kg: deviation.middleKg + 1.96 * deviation.uncertaintyKg,
    ...chargeSlipFacts(deviation, {
      target,
      refrigerant: job.refrigerant,
      wantedKg: wanted.kg,
      preCharged: wanted.preCharged,
      residualKg: residual.basis === 'assumed' ? undefined : residual.kg,
    }),
    ...chargeCostFacts(deviation.kg, target.kg),
  };
}

/** No maker's margin makes an adder so many times another, nor a slip of the row of a table. Common practice, no source. */
const absurdAdderTimes = 6;

function isAbsurdAdder(ratio: number | undefined): boolean {
  return ratio !== undefined && ratio > 0 && Math.max(ratio, 1 / ratio) > absurdAdderTimes;
}

function drawnFacts({ kg, from, enteredKg }: Drawn, residual: HoseResidual): Partial<Facts> {
  return {
    charged_from: from,
    drawn_kg: kg,
    charged_kg: kg - residual.kg,
    ...(enteredKg === undefined ? {} : { entered_drop_kg: enteredKg }),
    ...(residual === noResidual
      ? {}
      : {
          hose_residual_kg: residual.kg,
          hose_residual_low_kg: residual.lowKg,
          hose_residual_high_kg: residual.highKg,
          hose_residual_basis: residual.basis,
        }),
  };
}

/** A refrigerant on the weighings, or on their cylinders, that is not the record's. */
function weighedRefrigerantFacts({ job, weighings, cylinders }: JobRecords): Partial<Facts> {
  const named = weighings
    .filter(({ direction }) => direction !== 'out')
    .flatMap(({ refrigerant, cylinder_id: id }) => [
      refrigerant,
      cylinders?.find((cylinder) => cylinder.cylinder_id === id)?.refrigerant,
    ]);
  const known = named.flatMap((name) => (name === undefined ? [] : [meantRefrigerant(name)]));
  if (job?.refrigerant === undefined || known.length === 0) return {};
  const own = meantRefrigerant(job.refrigerant);
  const other = known.find((name) => name !== own);
  return { weighed_named: true, ...(other === undefined ? {} : { weighed_refrigerant: other }) };
}

/** What this job should have put in: beyond the factory charge for a pre-charged unit, all of it after an evacuation. */
function wantedMass(job: Job, target: ChargeTarget): { kg: number; preCharged: boolean } | { problem: ChargeProblem } {
  // A new split unit comes pre-charged unless the record says otherwise: common practice, no source.
  const basis =
    job.charge_basis ?? (job.work_type === 'install' || job.work_type === 'replace' ? 'pre-charged' : undefined);
  if (basis === undefined) return { problem: 'no-charge-basis' };
  if (basis === 'top-up') return { problem: 'top-up' };
  const preCharged = basis === 'pre-charged';
  return { kg: preCharged ? target.kg - target.factoryKg : target.kg, preCharged };
}

function deviationOf(
  drawn: Drawn,
  { kg: residualKg, lowKg, highKg }: HoseResidual,
  target: ChargeTarget,
  wantedKg: number,
): KnownDeviation {
  return {
    kg: drawn.kg - residualKg - wantedKg,
    // What may have stayed in the hoses was not charged.
    middleKg: drawn.kg - (lowKg + highKg) / 2 - wantedKg,
    uncertaintyKg: Math.hypot(drawn.uncertaintyKg, (highKg - lowKg) / (2 * 1.96), target.uncertaintyKg),
  };
}
