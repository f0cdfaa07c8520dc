import { Random } from '../../numerics/random.ts';
import type { Appliance } from '../../records/tables/appliances.ts';
import type { Cylinder } from '../../records/tables/cylinders.ts';
import type { Inspection } from '../../records/tables/inspections.ts';
import type { Repair } from '../../records/tables/repairs.ts';
import type { Weighing } from '../../records/tables/weighings.ts';
import type { ApplianceTruth } from '../appliance-truth.ts';
import { days } from '../calendar.ts';
import type { CylinderTruth } from '../cylinder-truth.ts';
import { leakRepairRow } from './leak-repair.ts';
import { plantApplianceRow } from './plant-appliance.ts';
import { plantAppliances } from './plant-appliances.ts';
import { PlantCourse } from './plant-course.ts';
import { PlantCylinders } from './plant-cylinders.ts';
import { drawInspections } from './plant-inspections.ts';
import { plantSlips } from './plant-slips.ts';
import { PlantWeighings } from './plant-weighings.ts';

/** The plant that the shop services by contract, and what happened to it over the year. */
export interface PlantYear {
  readonly appliances: readonly Appliance[];
  /** With a system and no job. */
  readonly weighings: readonly Weighing[];
  readonly cylinders: readonly Cylinder[];
  readonly repairs: readonly Repair[];
  readonly inspections: readonly Inspection[];
  readonly applianceTruth: readonly ApplianceTruth[];
  readonly cylinderTruth: readonly CylinderTruth[];
}

/** A shop without plant. */
export const noPlant: PlantYear = {
  appliances: [],
  weighings: [],
  cylinders: [],
  repairs: [],
  inspections: [],
  applianceTruth: [],
  cylinderTruth: [],
};

/** Numbers of its own, apart from those of the jobs. */
const STREAM = -1_600_000_000;

/** Simulates a year of the plant: leaks, additions, repairs and inspections; equal seeds give equal rows. */
export function simulatePlantYear(seed: number): PlantYear {
  const cylinders = new PlantCylinders(new Random(seed, STREAM));
  const weighings = new PlantWeighings(cylinders);
  const random = (index: number) => new Random(seed, STREAM - 1 - index);
  const courses = plantAppliances.map((each, index) => new PlantCourse(each, index, random(index), weighings));
  for (let day = 0; day < days; day++) for (const course of courses) course.pass(day);
  const inspectionRandom = random(courses.length);
  return {
    appliances: plantAppliances.map(plantApplianceRow),
    ...plantSlips(random(courses.length + 1), weighings.rows, cylinders.rows()),
    repairs: courses.flatMap(({ systemId, leaks }, index) =>
      leaks.map((leak) => leakRepairRow(leak, systemId, plantAppliances[index].sector === 'industrial-process')),
    ),
    inspections: courses.flatMap(({ systemId, leaks }, index) => {
      const { inspections } = plantAppliances[index];
      return inspections === undefined ? [] : drawInspections(inspectionRandom, systemId, inspections, leaks);
    }),
    applianceTruth: courses.map(({ truth }) => truth),
  };
}
