import type { CylinderWithWeighings, RecordedWeighing } from '../../src/accounts/cylinder-record.ts';
import type { Random } from '../../src/numerics/random.ts';
import type { DrawnWeighing } from './drawn-cylinder.ts';
import type { DrawnJob } from './drawn-job.ts';
import type { DrawnShop } from './drawn-shop.ts';
import { typedSlip } from './typed-slip.ts';

/** Another figure of the mass of a job, below 0 what came into cylinders. */
interface OtherFigure {
  readonly kg: number;
  readonly from: 'series' | 'record';
}

/**
 * What a shop's records say: cylinders with the weighings that are written for them, in the order of time.
 *
 * The other figure of a weighing is the job's less its other weighings as written, as the store has it.
 */
export function shopRecords(random: Random, shop: DrawnShop): CylinderWithWeighings[] {
  const weighings = shop.cylinders.flatMap((cylinder) => cylinder.weighings);
  const byJob = Map.groupBy(weighings, ({ jobId }) => jobId);
  const others = new Map([...byJob].map(([jobId, own]) => [jobId, otherFigure(random, shop.jobs.get(jobId), own)]));
  const writtenFor = Map.groupBy(weighings, (weighing) => weighing.writtenFor);
  return shop.cylinders.map(({ cylinderId, record }) => ({
    cylinderId,
    cylinder: record,
    weighings: (writtenFor.get(cylinderId) ?? [])
      .toSorted((a, b) => a.atMs - b.atMs || (a.weighingId < b.weighingId ? -1 : 1))
      .map((weighing) =>
        recorded(weighing, shop.hasSteps, byJob.get(weighing.jobId) ?? [], others.get(weighing.jobId) ?? null),
      ),
  }));
}

function otherFigure(random: Random, job: DrawnJob | undefined, own: readonly DrawnWeighing[]): OtherFigure | null {
  const from = random.weighted({ series: 0.3, record: 0.35, none: 0.35 });
  if (job === undefined || from === 'none') return null;
  const [{ direction, stepKg }] = own;
  if (from === 'series')
    return direction === 'out' ? null : { from, kg: job.scaledKg + random.uniform(-1.5, 1.5) * stepKg };
  if (direction === 'out' && own.length > 1) return null;
  const toKg = random.chance(0.1) ? 0.05 : 0.01;
  const kg = Number((Math.round(job.shownKg / toKg) * toKg).toFixed(2));
  const slip = random.chance(0.01)
    ? typedSlip(random, Math.abs(kg), 0.01, random.choice(['digits-swapped', 'digit-wrong', 'point-moved']))
    : null;
  return { from, kg: slip === null ? kg : Math.sign(kg) * slip };
}

function recorded(
  weighing: DrawnWeighing,
  hasSteps: boolean,
  ofJob: readonly DrawnWeighing[],
  other: OtherFigure | null,
): RecordedWeighing {
  const { weighingId, refrigerant, direction, day, atMs, startKg, endKg, stepKg, jobId, siteId } = weighing;
  const besidesKg = ofJob.reduce((sum, one) => (one === weighing ? sum : sum + one.startKg - one.endKg), 0);
  return {
    weighingId,
    writtenRefrigerant: refrigerant,
    direction,
    day,
    atMs,
    startKg,
    endKg,
    stepKg: hasSteps ? stepKg : null,
    otherKg: other === null ? null : other.kg - besidesKg,
    otherFrom: other?.from ?? 'record',
    jobId,
    siteId,
    technicianId: weighing.technicianId,
    crewId: weighing.crewId,
  };
}
