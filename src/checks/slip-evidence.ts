import type { Facts } from '../records/tables/facts.ts';
import type { Evidence } from './check.ts';

/** Figures that the message of every slip is made of. */
const always = ['slip_probability_ratio', 'slip_charge_kg'] as const;
/** … and those that a slip has beside them. */
const beside = {
  'line-ignored': ['line_beyond_m', 'line_adder_kg_per_m', 'line_charge_kg'],
  'from-zero': ['line_within_m', 'line_adder_kg_per_m'],
  'other-line-size': ['slip_of'],
  'other-refrigerant': ['slip_of'],
  'ounce-tenth-pound': ['slip_of'],
  'kg-pound': ['slip_of'],
  'hose-residual': ['slip_of', 'hose_residual_kg'],
  'factory-again': [],
} as const satisfies Record<NonNullable<Facts['charge_slip']>, readonly (keyof Facts)[]>;

/** The arithmetic of the slip that was found; undefined where there is none, or where it cannot be shown. */
export function slipEvidence(
  facts: Partial<Facts>,
  wantedKg: number,
): { message: NonNullable<Facts['charge_slip']>; evidence: Evidence } | undefined {
  const { charge_slip: slip, slip_charge_kg: slipKg, charge_target_kg: targetKg } = facts;
  if (slip === undefined || slipKg === undefined || targetKg === undefined) return undefined;
  const evidence: Record<string, number | string> = {
    slip_off_kg: Math.abs(slipKg - wantedKg),
    factory_charge_kg: slipKg - wantedKg,
  };
  for (const name of [...always, ...beside[slip]]) {
    const value = facts[name];
    if (value === undefined || value === null || typeof value === 'boolean') return undefined;
    evidence[name] = value;
  }
  if (slip !== 'factory-again') delete evidence.factory_charge_kg;
  return { message: slip, evidence };
}
