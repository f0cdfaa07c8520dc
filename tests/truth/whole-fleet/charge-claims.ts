import { chargeClaims } from '../charge-claims.ts';
import type { Claim } from '../claim.ts';
import type { FleetJob } from './judged-fleet.ts';
import { errorClaim, type Named, namedClaims } from './named-claims.ts';

const slips = [
  'line-ignored',
  'from-zero',
  'other-line-size',
  'other-refrigerant',
  'ounce-tenth-pound',
  'kg-pound',
  'hose-residual',
  'factory-again',
] as const;

/** What the facts say of charges: the claims on jobs of a fleet, how far deviations are off, and each slip by its name. */
export function fleetChargeClaims(jobs: readonly FleetJob[]): Claim[] {
  const trials = jobs.map((one) => ({ ...one, plan: { ...one.plan, kind: one.truth.scale_upset ?? 'undisturbed' } }));
  const judged = trials.filter(({ truth }) => truth.charge_deviation_kg !== undefined);
  return [
    ...chargeClaims(trials),
    errorClaim(
      'charge deviation, error',
      judged.map(({ plan, truth, facts }) => ({
        plan,
        error:
          facts.charge_deviation_kg === undefined
            ? undefined
            : facts.charge_deviation_kg - (truth.charge_deviation_kg ?? 0),
        says: `true ${grams(truth.charge_deviation_kg)}, found ${grams(facts.charge_deviation_kg)}, by ${facts.charged_from}, length off by ${truth.line_length_error_m?.toFixed(1)} m`,
      })),
      (kg) => grams(kg),
    ),
    ...namedClaims('slip', judged.map(slipNamed), slips),
  ];
}

function grams(kg: number | undefined): string {
  return kg === undefined ? '–' : `${(1000 * kg).toFixed(0)} g`;
}

function slipNamed({ plan, truth, facts }: FleetJob): Named {
  return {
    plan,
    truth: truth.charge_slip,
    found: facts.charge_slip,
    isUntold: facts.charge_slip === undefined,
    says: `true ${truth.charge_slip ?? 'none'} (${grams(truth.charge_slip_kg)}), named ${facts.charge_slip ?? 'none'}; deviation true ${grams(truth.charge_deviation_kg)}, found ${grams(facts.charge_deviation_kg)}`,
  };
}
