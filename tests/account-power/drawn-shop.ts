import { Random } from '../../src/numerics/random.ts';
import { type DrawnCylinder, drawnCylinder } from './drawn-cylinder.ts';
import type { DrawnCrew, DrawnJob } from './drawn-job.ts';
import { DrawnScale, drawnTemperatureC } from './drawn-scale.ts';
import { weigh } from './weigh.ts';

export const firstDay = 19_000;
export const lastDay = firstDay + 1_200;
const workDays = 1_095;
const dayMs = 86_400_000;
const hourMs = 3_600_000;
const refrigerants = ['R-410A', 'R-32', 'R-134a', 'R-407C'] as const;

/** A shop over three years, before anything is mistyped. */
export interface DrawnShop {
  readonly number: number;
  readonly cylinders: DrawnCylinder[];
  readonly jobs: ReadonlyMap<string, DrawnJob>;
  /** Whether its records have the time of each weighing, or the job's alone. */
  readonly hasTimes: boolean;
  readonly hasSteps: boolean;
}

/** Draws a shop: crews, their scales and habits, what they charge and recover, and what is stolen from them. */
export function drawnShop(seed: number, number: number): DrawnShop {
  const random = new Random(seed, number);
  const crews = Array.from({ length: random.choice([3, 8, 20]) }, (_, at): DrawnCrew => {
    const isPlant = random.chance(0.15);
    const habit = random.weighted({ whole: 0.75, content: 0.15, zero: 0.1 });
    return { number: at, isPlant, habit, people: random.integer(1, 3), scale: new DrawnScale(random, isPlant) };
  });
  const [hasTimes, idsRise, hasSteps] = [random.chance(0.75), random.chance(0.8), random.chance(0.6)];
  const depot = new DrawnScale(random, true);
  const cylinders: DrawnCylinder[] = [];
  const jobs = new Map<string, DrawnJob>();

  const workOf = (crew: DrawnCrew): void => {
    const own = refrigerants.filter(() => random.chance(0.6));
    const kinds = own.length === 0 ? [refrigerants[0]] : own;
    const open = new Map<string, DrawnCylinder[]>();
    let delivery = { left: 0, ratio: 0 };

    const buy = (refrigerant: string, kind: 'supply' | 'recovery', day: number): DrawnCylinder => {
      if (delivery.left === 0) delivery = { left: random.integer(3, 12), ratio: random.uniform(-0.005, 0.005) };
      delivery.left -= 1;
      const cylinder = drawnCylinder(random, {
        cylinderId: `c-${String(cylinders.length + 1).padStart(5, '0')}`,
        crew: crew.number,
        refrigerant,
        kind,
        isPlant: crew.isPlant,
        day: Math.max(firstDay, day - random.integer(0, 60)),
        fillRatio: delivery.ratio,
      });
      cylinders.push(cylinder);
      open.set(`${refrigerant} ${kind}`, [...(open.get(`${refrigerant} ${kind}`) ?? []), cylinder]);
      return cylinder;
    };
    const take = (refrigerant: string, kind: 'supply' | 'recovery', day: number): DrawnCylinder => {
      const ready = open.get(`${refrigerant} ${kind}`) ?? [];
      return ready.length === 0 || (ready.length === 1 && kind === 'supply' && random.chance(0.03))
        ? buy(refrigerant, kind, day)
        : random.choice(ready);
    };
    const putAway = (cylinder: DrawnCylinder, day: number): void => {
      const { record } = cylinder;
      const key = `${record.refrigerant} ${record.kind}`;
      open.set(
        key,
        (open.get(key) ?? []).filter((one) => one !== cylinder),
      );
      const fate = random.weighted({ weighed: 0.82, unweighed: 0.08, forgotten: 0.1 });
      if (fate === 'forgotten') return;
      record.closedDay = day + random.integer(1, 30);
      if (fate === 'unweighed') return;
      const scale = random.chance(0.6) ? depot : crew.scale;
      const weather = { day, temperatureC: drawnTemperatureC(random, day), onH: random.uniform(0, 2) };
      const shownKg = scale.shownKg(cylinder.emptyKg + cylinder.contentKg, weather) - cylinder.stampedKg;
      const toKg = random.choice([0.01, 0.05, 0.1, 0.1]);
      record.closingKg = Math.max(0, Number((Math.round(shownKg / toKg) * toKg).toFixed(2)));
    };
    const afterJob = (cylinder: DrawnCylinder, { day, atMs }: DrawnJob): void => {
      const { theft, record } = cylinder;
      if (theft !== null && cylinder.planted === null && cylinder.weighings.length >= theft.afterWeighings) {
        const kg = Math.min(theft.kg, 0.7 * cylinder.contentKg);
        if (kg >= 0.1) {
          cylinder.contentKg -= kg;
          cylinder.planted = { kind: 'theft', kg, atMs: atMs + random.uniform(3, 7) * hourMs, day };
        }
      }
      const isFull = record.kind === 'recovery' && cylinder.contentKg > 0.7 * (record.capacityKg ?? 0);
      const isEmpty = record.kind === 'supply' && cylinder.contentKg < cylinder.heelKg + 0.1;
      if (isFull || isEmpty || random.chance(0.01)) putAway(cylinder, day);
    };

    for (let day = firstDay + random.integer(0, 60); day < firstDay + workDays; day += 1) {
      if (random.chance(1 / 1500)) crew.scale = new DrawnScale(random, crew.isPlant);
      if (!random.chance(0.9)) continue;
      // Now and then somebody of another crew takes a cylinder, and weighs it on his own scale.
      const by = random.chance(0.03) ? random.choice(crews) : crew;
      const job: DrawnJob = {
        jobId: `j-${jobs.size + 1}`,
        siteId: `site-${random.integer(1, 200)}`,
        technicianId: `t-${by.number}-${random.integer(1, by.people)}`,
        crew: by,
        day,
        atMs: day * dayMs + random.integer(8 * 60, 15 * 60) * 60_000,
        temperatureC: drawnTemperatureC(random, day),
        scaledKg: 0,
        shownKg: 0,
        weighings: 0,
      };
      jobs.set(job.jobId, job);
      const refrigerant = random.choice(kinds);
      const used = new Set<DrawnCylinder>();
      const move = (cylinder: DrawnCylinder, outKg: number, direction: 'in' | 'out'): void => {
        if (by !== crew) cylinder.marks.add('other scale');
        weigh(random, cylinder, outKg, direction, job, { idsRise, hasTimes });
        used.add(cylinder);
      };
      if (random.chance(0.15)) {
        const cylinder = take(refrigerant, 'recovery', day);
        const room = 0.8 * (cylinder.record.capacityKg ?? 0) - cylinder.contentKg;
        move(cylinder, -Math.min(room, random.logUniform(0.2, 3) * (crew.isPlant ? 4 : 1)), 'out');
      } else {
        let leftKg = crew.isPlant ? random.logUniform(1, 15) : random.logUniform(0.1, 4);
        const recovered = (open.get(`${refrigerant} recovery`) ?? []).find(({ contentKg }) => contentKg > leftKg + 0.5);
        if (recovered !== undefined && random.chance(0.2)) {
          move(recovered, leftKg, 'in');
          leftKg = 0;
        }
        for (let parts = 0; leftKg > 0.05 && parts < 4; parts += 1) {
          const cylinder = take(refrigerant, 'supply', day);
          const kg = Math.min(leftKg, cylinder.contentKg - cylinder.heelKg);
          // One charge in twelve is made in two goes.
          const first = random.chance(0.08) ? random.uniform(0.3, 0.7) : 1;
          if (kg > 0.05) move(cylinder, first * kg, 'in');
          if (kg > 0.05 && first < 1) move(cylinder, (1 - first) * kg, 'in');
          leftKg -= Math.max(kg, 0);
          if (leftKg > 0.05) {
            used.delete(cylinder);
            putAway(cylinder, day);
          }
        }
      }
      for (const cylinder of used) afterJob(cylinder, job);
    }
  };
  for (const crew of crews) workOf(crew);
  return { number, cylinders, jobs, hasTimes, hasSteps };
}
