import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { columnsOf, type Table } from '../records/table.ts';
import { appliances } from '../records/tables/appliances.ts';
import { callbacks } from '../records/tables/callbacks.ts';
import { cylinders } from '../records/tables/cylinders.ts';
import { gauges } from '../records/tables/gauges.ts';
import { inspections } from '../records/tables/inspections.ts';
import { jobs } from '../records/tables/jobs.ts';
import { lineSets } from '../records/tables/line-sets.ts';
import { memberships } from '../records/tables/memberships.ts';
import { people } from '../records/tables/people.ts';
import { repairs } from '../records/tables/repairs.ts';
import { trainings } from '../records/tables/trainings.ts';
import { weighings } from '../records/tables/weighings.ts';
import { applianceTruthColumns } from './appliance-truth.ts';
import { callbackTruthColumns } from './callback-truth.ts';
import { crewTruth, crewTruthColumns } from './crew-truth.ts';
import { CsvFile, type CsvValue } from './csv-file.ts';
import { cylinderTruthColumns } from './cylinder-truth.ts';
import type { SimulatedFleet } from './fleet.ts';
import { technicianTruth, technicianTruthColumns, trainingTruth, trainingTruthColumns } from './technician-truth.ts';
import { readingColumns, writeReadings } from './write-readings.ts';

/** Columns that the simulation never fills, and so does not write. */
const unfilled: Readonly<Record<string, readonly string[]>> = {
  jobs: ['other_adder_kg', 'opened_circuit', 'target_superheat_k', 'note'],
  appliances: ['retired_on'],
};

/** The columns of a table that a simulated bundle has. */
function writtenColumns(table: Table): string[] {
  const left = unfilled[table.name] ?? [];
  return columnsOf(table)
    .map(({ name }) => name)
    .filter((name) => !left.includes(name));
}

export interface WrittenBundle {
  readonly jobs: number;
  readonly readings: number;
}

/**
 * Writes a fleet as an interchange bundle: one CSV file per table, and beside them what is true, which is no part of it: `truth.csv` of
 * the jobs, and `callback_truth.csv`, `cylinder_truth.csv`, `appliance_truth.csv`, `technician_truth.csv`, `crew_truth.csv` and
 * `training_truth.csv`.
 *
 * Jobs are drawn and written one by one, at the pace of the disk.
 *
 * @param fleet the fleet
 * @param outDir folder to write into; made where it is missing, files of the same names are overwritten
 * @param onProgress called after every job with the number written so far
 * @returns how many jobs and readings were written
 */
export async function writeBundle(
  fleet: SimulatedFleet,
  outDir: string,
  onProgress?: (jobsWritten: number) => void,
): Promise<WrittenBundle> {
  await mkdir(outDir, { recursive: true });
  const at = (name: string) => join(outDir, `${name}.csv`);
  const streamed = [jobs, lineSets, weighings, appliances, callbacks].map((table) => ({
    name: table.name,
    columns: writtenColumns(table as Table),
  }));
  const files = new Map<string, { file: CsvFile; columns: readonly string[] }>();
  const truths = [
    { name: 'truth', columns: fleet.truthColumns },
    { name: 'callback_truth', columns: callbackTruthColumns },
  ];
  for (const { name, columns } of [...streamed, ...truths]) {
    files.set(name, { file: await CsvFile.create(at(name), columns), columns });
  }
  const readings = await CsvFile.create(at('readings'), readingColumns);
  const write = async (name: string, row: Readonly<Record<string, CsvValue>>) => {
    const { file, columns } = files.get(name) as { file: CsvFile; columns: readonly string[] };
    file.row(columns, row);
    await file.flushed();
  };
  let written = 0;
  try {
    for (const one of fleet.jobs()) {
      await write('jobs', one.job);
      if (one.appliance !== undefined) await write('appliances', one.appliance);
      await write('truth', roundedTruth(one.truth));
      for (const row of one.lineSets) await write('line_sets', row);
      for (const row of one.weighings) await write('weighings', row);
      if (one.callback !== undefined) await write('callbacks', one.callback);
      if (one.callbackTruth !== undefined) await write('callback_truth', { ...one.callbackTruth });
      await writeReadings(readings, one);
      written++;
      onProgress?.(written);
    }
    for (const row of fleet.plant.appliances) await write('appliances', row);
    for (const row of fleet.plant.weighings) await write('weighings', row);
  } finally {
    for (const { file } of files.values()) await file.close();
    await readings.close();
  }
  type Rows = readonly Readonly<Record<string, CsvValue>>[];
  const whole: [string, readonly string[], Rows][] = [
    ...(
      [
        [people, fleet.people],
        [memberships, fleet.memberships],
        [trainings, fleet.trainings],
        [gauges, fleet.gauges],
        [cylinders, fleet.cylinders()],
        [repairs, fleet.plant.repairs],
        [inspections, fleet.plant.inspections],
      ] as [Table, Rows][]
    ).map(([table, rows]): [string, string[], Rows] => [table.name, writtenColumns(table), rows]),
    ['cylinder_truth', cylinderTruthColumns, fleet.cylinderTruth().map(roundedTruth)],
    ['appliance_truth', applianceTruthColumns, fleet.plant.applianceTruth.map(roundedTruth)],
    ['technician_truth', technicianTruthColumns, technicianTruth()],
    ['crew_truth', crewTruthColumns, crewTruth().map(roundedTruth)],
    ['training_truth', trainingTruthColumns, trainingTruth(fleet.trainings).map(roundedTruth)],
  ];
  for (const [name, columns, rows] of whole) {
    const file = await CsvFile.create(at(name), columns);
    for (const row of rows) {
      file.row(columns, row);
      await file.flushed();
    }
    await file.close();
  }
  return { jobs: written, readings: readings.rows };
}

/** Numbers of the truth to six figures. */
function roundedTruth(truth: object): Readonly<Record<string, CsvValue>> {
  return Object.fromEntries(
    Object.entries(truth).map(([name, value]: [string, CsvValue]) => [
      name,
      typeof value === 'number' ? Number(value.toPrecision(6)) : value,
    ]),
  );
}
