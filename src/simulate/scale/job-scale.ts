import type { Random } from '../../numerics/random.ts';
import type { Job } from '../../records/tables/jobs.ts';
import type { ChargePlan } from '../charge-plan.ts';
import type { Crew } from '../crews.ts';
import type { CylinderStore } from '../cylinder-store.ts';
import type { Refrigerant } from '../line-adders.ts';
import type { WeighIn } from '../weigh-in.ts';
import { unseenKg } from './hose-pull.ts';
import { drawScaleCourse } from './scale-course.ts';
import { drawScaleUpsets, type ScaleUpset } from './scale-upsets.ts';
import { writtenFigureKg } from './written-figure.ts';

export interface DrawJobScaleOptions {
  readonly random: Random;
  readonly plan: ChargePlan;
  readonly technicianId: string;
  readonly crew: Crew;
  readonly refrigerant: Refrigerant;
  readonly cylinders: CylinderStore;
  readonly day: number;
}

/** The weigh-in of a job: what came of the plan, what the scale does, and what is written down of it. */
export interface JobScale {
  readonly plan: ChargePlan;
  readonly charge: WeighIn;
  readonly upsets: readonly ScaleUpset[];
  /** As the technician writes it [kg]. */
  readonly weighedInKg: number;
  readonly weighings: readonly { readonly cylinderId: string; readonly startKg: number; readonly endKg: number }[];
  /** What the record says of the charging hose. */
  readonly hoseColumns: Pick<
    Job,
    'hose_residual_kg' | 'charging_hose_bore_mm' | 'charging_hose_length_m' | 'charging_hose_phase'
  >;
}

/** Share of cylinders used up in mid-charge where they cannot give it all; the others are left for the next one. */
const USED_UP_SHARE = 0.3;
/** Share of logged weigh-ins without the scale: common practice, no source. */
const SCALE_UNLOGGED_SHARE = 0.03;

/**
 * Takes a job's charge from its cylinders. Whoever charges by a display that a hose shifts in mid-charge puts in that much
 * more or less than the plan says.
 */
export function drawJobScale(options: DrawJobScaleOptions): JobScale {
  const { random, technicianId, crew, refrigerant, cylinders, day } = options;
  const { scaleStepKg } = crew;
  const none = options.plan.drawnKg === 0;
  cylinders.stand(technicianId, refrigerant, day);
  const open = cylinders.runningOut(technicianId, refrigerant, options.plan.drawnKg);
  const used = random.chance(USED_UP_SHARE) && !none ? open : undefined;
  const upsets = drawScaleUpsets(random, used !== undefined);
  const scaleLogged = !random.chance(SCALE_UNLOGGED_SHARE);
  if (none) {
    const charge = { massKg: 0, cylinderKg: 0, scaleStepKg };
    return { plan: options.plan, charge, upsets: [], weighedInKg: 0, weighings: [], hoseColumns: {} };
  }
  const plan = charged(options.plan, unseenKg(upsets.hose));
  const massKg = plan.drawnKg;
  const firstKg = used === undefined ? 0 : Math.min(0.9 * massKg, used.leftKg - random.uniform(0.03, 0.12));
  if (used !== undefined) used.leftKg -= firstKg;
  const last = cylinders.take(technicianId, refrigerant, massKg, day);
  const lastKg = last.tareKg + last.leftKg;
  last.leftKg -= massKg - firstKg;
  const course = drawScaleCourse({
    random,
    massKg,
    cylinderKg: used === undefined ? lastKg : used.tareKg + used.leftKg + firstKg,
    scaleStepKg,
    upsets,
    next: used && { afterKg: firstKg, cylinderKg: lastKg },
  });
  const dropKg = course.entries.reduce((sum, { startKg, endKg }) => sum + startKg - endKg, 0);
  const cylinderOf = (place: 0 | 1) => (place === 0 && used !== undefined ? used : last).cylinderId;
  return {
    plan,
    charge: { massKg, cylinderKg: course.loadKg(0), scaleStepKg, course, scaleLogged },
    upsets: course.upsets,
    weighedInKg: writtenFigureKg(random, Math.max(0, Math.round(dropKg * 1000) / 1000)),
    weighings: course.entries.map(({ startKg, endKg, cylinder }) => ({
      cylinderId: cylinderOf(cylinder),
      startKg,
      endKg,
    })),
    hoseColumns: hoseColumns(random, crew, plan.residualKg),
  };
}

/** The plan as it comes out where the display hides some of what leaves the cylinder. */
function charged(plan: ChargePlan, hiddenKg: number): ChargePlan {
  const chargedKg = Math.max(0.01, plan.chargedKg + hiddenKg);
  const moreKg = chargedKg - plan.chargedKg;
  return {
    ...plan,
    chargedKg,
    deviationKg: plan.deviationKg === undefined ? undefined : plan.deviationKg + moreKg,
    drawnKg: plan.drawnKg + moreKg,
  };
}

/** The residual as somebody reckoned it, or the hose, or neither. */
function hoseColumns(random: Random, { chargingHose }: Crew, residualKg: number): JobScale['hoseColumns'] {
  const kind = random.weighted({ residual: 0.45, hose: 0.45, neither: 0.1 });
  const reckonedKg = Math.round(residualKg * random.uniform(0.9, 1.1) * 1000) / 1000;
  if (kind === 'residual') return { hose_residual_kg: reckonedKg };
  if (kind === 'neither') return {};
  return {
    charging_hose_bore_mm: chargingHose.boreMm,
    charging_hose_length_m: chargingHose.lengthM,
    charging_hose_phase: chargingHose.phase,
  };
}
