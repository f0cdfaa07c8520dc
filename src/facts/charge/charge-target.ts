import type { Facts } from '../../records/tables/facts.ts';
import type { Job } from '../../records/tables/jobs.ts';
import type { JobRecords } from '../job-material.ts';
import { computedAdder } from './line-adder.ts';

type ChargeProblem = NonNullable<Facts['charge_problem']>;

/** A line with what it wants beyond the factory charge. */
export interface ChargedLine {
  readonly lengthM: number;
  readonly coveredM: number;
  /** 0 where the line is no longer than covered. */
  readonly beyondM: number;
  /** 0 where nothing is wanted, so that none is needed. */
  readonly adderKgPerM: number;
  readonly basis: 'maker' | 'computed';
  readonly liquidOdMm: number | undefined;
}

/** What the whole system wants, and of what that is made up. */
export interface ChargeTarget {
  readonly factoryKg: number;
  readonly otherKg: number;
  readonly lines: readonly ChargedLine[];
  readonly kg: number;
  /** Of the length beyond that [kg]. */
  readonly lineKg: number;
  /** Standard uncertainty of the lengths and of computed adders [kg]. */
  readonly uncertaintyKg: number;
}

type Line = Pick<
  Job,
  'line_length_m' | 'factory_line_m' | 'line_adder_kg_per_m' | 'liquid_line_od_mm' | 'suction_line_od_mm'
>;

// Common practice, no source; standard uncertainties.
/** A line's length is paced off or read from a plan, as a ratio. */
const lengthSpread = 0.01;
/** A computed adder: density with the weather, bores with the mill, what the maker would have added. */
const computedAdderSpread = 0.12;

/**
 * The charge that the whole system wants: factory charge, what each line needs beyond the length that the factory charge
 * covers, and other adders. The maker's adder, where it is recorded; else that of bore and density.
 */
export function chargeTarget({ job, lineSets }: JobRecords): ChargeTarget | { problem: ChargeProblem } {
  if (job?.factory_charge_kg === undefined) return { problem: 'no-factory-charge' };
  const lines: ChargedLine[] = [];
  let squares = 0;
  for (const recorded of lineSets.length > 0 ? lineSets : [job]) {
    const line = chargedLine(recorded, job);
    if ('problem' in line) return line;
    lines.push(line);
    if (line.beyondM === 0) continue;
    const spread = line.basis === 'computed' ? computedAdderSpread : 0;
    squares += (line.adderKgPerM * lengthSpread * line.lengthM) ** 2 + (line.adderKgPerM * spread * line.beyondM) ** 2;
  }
  const lineKg = lines.reduce((sum, line) => sum + line.beyondM * line.adderKgPerM, 0);
  const otherKg = job.other_adder_kg ?? 0;
  const kg = job.factory_charge_kg + otherKg + lineKg;
  return { factoryKg: job.factory_charge_kg, otherKg, lines, kg, lineKg, uncertaintyKg: Math.sqrt(squares) };
}

function chargedLine(line: Line, job: Job): ChargedLine | { problem: ChargeProblem } {
  const { line_length_m: lengthM, factory_line_m: coveredM } = line;
  if (lengthM === undefined) return { problem: 'no-line-length' };
  if (coveredM === undefined) return { problem: 'no-covered-length' };
  const beyondM = Math.max(0, lengthM - coveredM);
  const liquidOdMm = line.liquid_line_od_mm ?? job.liquid_line_od_mm;
  const shared = { lengthM, coveredM, beyondM, liquidOdMm };
  if (line.line_adder_kg_per_m !== undefined)
    return { ...shared, adderKgPerM: line.line_adder_kg_per_m, basis: 'maker' };
  const sizes = {
    liquid_line_od_mm: liquidOdMm,
    suction_line_od_mm: line.suction_line_od_mm ?? job.suction_line_od_mm,
  };
  const computed = computedAdder(job.refrigerant, sizes);
  if (computed === undefined && beyondM > 0) return { problem: 'no-adder' };
  return { ...shared, adderKgPerM: computed?.lineKgPerM ?? 0, basis: 'computed' };
}

/** The target as facts. */
export function chargeTargetFacts(target: ChargeTarget, refrigerant: string | undefined): Partial<Facts> {
  const beyondM = target.lines.reduce((sum, line) => sum + line.beyondM, 0);
  // Of several lines the mean over what lies beyond, or over all where nothing does.
  const weightOf = (line: ChargedLine) => (beyondM > 0 ? line.beyondM : line.lengthM);
  const weight = target.lines.reduce((sum, line) => sum + weightOf(line), 0);
  const adderKgPerM = target.lines.reduce((sum, line) => sum + weightOf(line) * line.adderKgPerM, 0) / weight;
  return {
    charge_target_kg: target.kg,
    line_beyond_m: beyondM,
    line_covered_m: target.lines.reduce((sum, line) => sum + line.coveredM, 0),
    line_charge_kg: target.lineKg,
    line_within_m: target.lines.reduce((sum, line) => sum + line.lengthM - line.beyondM, 0),
    ...(weight > 0 && adderKgPerM !== 0
      ? {
          line_adder_kg_per_m: adderKgPerM,
          line_adder_basis: target.lines.some(({ basis }) => basis === 'computed')
            ? ('computed' as const)
            : ('maker' as const),
        }
      : {}),
    ...adderFacts(target.lines, refrigerant),
  };
}

/** The recorded adder beside the computed one, of the line on which they differ most. */
function adderFacts(lines: readonly ChargedLine[], refrigerant: string | undefined): Partial<Facts> {
  const compared = lines.flatMap(({ basis, adderKgPerM, liquidOdMm }) => {
    const computed = computedAdder(refrigerant, { liquid_line_od_mm: liquidOdMm });
    if (basis !== 'maker' || computed === undefined) return [];
    const ratio = adderKgPerM / computed.liquidKgPerM;
    const apart = ratio > 0 ? Math.abs(Math.log(ratio)) : Number.POSITIVE_INFINITY;
    return [{ adderKgPerM, computedKgPerM: computed.liquidKgPerM, ratio, apart }];
  });
  const [most] = compared.toSorted((a, b) => b.apart - a.apart);
  if (most === undefined) return {};
  return {
    recorded_adder_kg_per_m: most.adderKgPerM,
    computed_adder_kg_per_m: most.computedKgPerM,
    adder_ratio: most.ratio,
  };
}
