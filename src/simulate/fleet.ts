import type { Cylinder } from '../records/tables/cylinders.ts';
import type { Gauge } from '../records/tables/gauges.ts';
import type { Membership } from '../records/tables/memberships.ts';
import type { Person } from '../records/tables/people.ts';
import type { Training } from '../records/tables/trainings.ts';
import { Random } from '../numerics/random.ts';
import { dateOfDay, days } from './calendar.ts';
import { CylinderStore } from './cylinder-store.ts';
import type { CylinderTruth } from './cylinder-truth.ts';
import { type SimulatedJob, simulateJob } from './job.ts';
import { drawMishaps } from './mishaps/draw-mishaps.ts';
import { HandIns } from './mishaps/hand-ins.ts';
import { lentGauges } from './mishaps/other-gauges.ts';
import { noPlant, type PlantYear, simulatePlantYear } from './plant/plant-year.ts';
import { RecoveryStore } from './recovery-store.ts';
import { Revisits } from './revisits.ts';
import { Roster } from './roster.ts';
import { technicians } from './technicians.ts';
import { mishapColumns, type Truth, truthColumns } from './truth.ts';
import { compoundGauge, gaugeRow, vacuumGauges } from './vacuum-gauges.ts';

export interface SimulateFleetOptions {
  /** How many jobs, over the one year. */
  readonly jobs: number;
  readonly seed: number;
  /** How often every vacuum gauge logs [s]; absent: as often as each does, 1 to 5 s. */
  readonly intervalS?: number;
  /** Whether the shop services plant by contract too; absent: from `PLANT_FROM_JOBS` jobs on. */
  readonly withPlant?: boolean;
  /**
   * Whether logs are copied, spoilt or shaped by what no model knows; absent: they are not. Jobs to which nothing of that
   * happens are those of the same fleet without.
   */
  readonly mishaps?: boolean;
}

/** Fleets of fewer jobs have no plant, so that the small ones of tests stay small; larger ones all have the same. */
export const PLANT_FROM_JOBS = 50;

/** A simulated fleet: small tables at hand, jobs drawn one by one. */
export interface SimulatedFleet {
  readonly size: number;
  readonly people: readonly Person[];
  readonly memberships: readonly Membership[];
  readonly trainings: readonly Training[];
  readonly gauges: readonly Gauge[];
  /** What is serviced by contract, without jobs; all its tables are empty where there is none. */
  readonly plant: PlantYear;
  /** The columns that the truth of its jobs may have. */
  readonly truthColumns: readonly (keyof Truth)[];
  /** The jobs in the order of their start; each call starts over. */
  jobs(): Generator<SimulatedJob, void, undefined>;
  /** The cylinders that the jobs drawn so far, in the latest call of `jobs`, have taken from or recovered into, and the plant's. */
  cylinders(): Cylinder[];
  /** What is planted in them and in their weighings; of the crews' cylinders as far as jobs are drawn. */
  cylinderTruth(): CylinderTruth[];
}

/**
 * Simulates a year of an invented shop with known truth.
 *
 * For trying every judgement against what really happened. Equal options give equal fleets; jobs come one at a time, so
 * that a large fleet never sits in memory.
 *
 * @param options number of jobs and seed
 * @returns the fleet
 *
 * @example
 * simulateFleet({ jobs: 3, seed: 1 }).size // 3
 */
export function simulateFleet(options: SimulateFleetOptions): SimulatedFleet {
  const { jobs, seed, intervalS, withPlant = jobs >= PLANT_FROM_JOBS, mishaps = false } = options;
  let planted: CylinderTruth[] = [];
  let cylinders = new CylinderStore(seed, planted);
  let recoveries = new RecoveryStore(seed, planted);
  const plant = withPlant ? simulatePlantYear(seed) : noPlant;
  return {
    size: jobs,
    people: technicians.map(({ technicianId, displayName, hiredOn }) => ({
      technician_id: technicianId,
      display_name: displayName,
      hired_on: hiredOn,
    })),
    memberships: technicians.flatMap(membershipRows),
    trainings: [
      { training_id: 'training-1', technician_id: 't08', held_on: dateOfDay(214), topic: 'no-rise-test' },
      { training_id: 'training-2', technician_id: 't09', held_on: dateOfDay(160), topic: 'evacuation' },
      { training_id: 'training-3', technician_id: 't11', held_on: dateOfDay(160), topic: 'evacuation' },
    ],
    gauges: [...vacuumGauges, compoundGauge, ...(mishaps ? lentGauges : [])].map(gaugeRow),
    truthColumns: mishaps ? [...truthColumns, ...mishapColumns] : truthColumns,
    plant,
    *jobs() {
      planted = [];
      cylinders = new CylinderStore(seed, planted);
      recoveries = new RecoveryStore(seed, planted);
      const clock = new Random(seed, 0);
      const roster = new Roster();
      const revisits = new Revisits();
      const handIns = new HandIns();
      for (let number = 1; number <= jobs; number++) {
        const day = startDay((number - 1 + clock.uniform(0, 0.999)) / jobs);
        const revisit = revisits.take(day);
        const drawn = mishaps ? drawMishaps(seed, number) : undefined;
        const own = simulateJob({
          seed,
          number,
          day,
          technician: roster.draw(clock, day),
          revisit,
          cylinders,
          recoveries,
          intervalS,
          mishaps: drawn,
        });
        const one = drawn === undefined ? own : handIns.of(own, drawn);
        roster.book(one.job.technician_id ?? '', one.endDay);
        planted.push(...one.cylinderTruth);
        if (one.revisit !== undefined) revisits.add(one.revisit);
        yield one;
      }
    },
    cylinders: () => [...cylinders.rows(), ...recoveries.rows(), ...plant.cylinders],
    cylinderTruth: () => [...planted, ...plant.cylinderTruth],
  };
}

/** Share of the year gone by → day with its fraction, between 07:30 and 16:30 of the shop's clock. */
function startDay(share: number): number {
  const at = share * days;
  return Math.floor(at) + (7.5 + 9 * (at % 1)) / 24;
}

function membershipRows({ technicianId, hiredOn, crewId, change }: (typeof technicians)[number]): Membership[] {
  if (change?.crewId === undefined) return [{ technician_id: technicianId, crew_id: crewId, from_on: hiredOn }];
  return [
    { technician_id: technicianId, crew_id: crewId, from_on: hiredOn, to_on: dateOfDay(change.fromDay - 1) },
    { technician_id: technicianId, crew_id: change.crewId, from_on: dateOfDay(change.fromDay) },
  ];
}
