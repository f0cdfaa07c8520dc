import type { Job } from '../../../src/records/tables/jobs.ts';
import type { RunColumn } from '../../../src/records/run-columns.ts';
import { runModes, type RunSeries } from '../../../src/traces/run-series.ts';
import { referenceCells } from '../../reference-rows.ts';

type Course = number | ((sinceStartS: number) => number);

/** A run test written out: what each column showed, so long after the start of the compressor [s]. */
export interface RunLog {
  readonly restS?: number;
  readonly runS?: number;
  readonly intervalS?: number;
  /** Readings while it runs; without those that are undefined. */
  readonly columns?: Readonly<Partial<Record<RunColumn, Course | undefined>>>;
  /** What both gauges show before the start [Pa]. */
  readonly restPa?: number;
  readonly mode?: (sinceStartS: number) => (typeof runModes)[number] | undefined;
  readonly vacuumPa?: (sinceStartS: number) => number;
}

const saturation = referenceCells('coolprop-saturation');

/** A row of the reference: pressures at which a refrigerant boils and condenses at a temperature [Pa]. */
export function saturationAt(refrigerant: string, celsius: number): { bubblePa: number; dewPa: number } {
  const row = saturation.find((each) => each.refrigerant === refrigerant && Number(each.temperature_c) === celsius);
  if (row === undefined) throw new Error(`no reference row of ${refrigerant} at ${celsius} °C`);
  return { bubblePa: Number(row.bubble_pa), dewPa: Number(row.dew_pa) };
}

/** Suction at a dew point and liquid at a bubble point [°C]. */
export function pressuresOf(refrigerant: string, dewC: number, bubbleC: number) {
  return {
    suction_pa: saturationAt(refrigerant, dewC).dewPa,
    liquid_pa: saturationAt(refrigerant, bubbleC).bubblePa,
  };
}

/** R-410A: superheat 7 K, subcooling 6 K, on a day of 30 °C. */
export const usualColumns = {
  ...pressuresOf('R-410A', 5, 40),
  suction_line_c: 12,
  liquid_line_c: 34,
  outdoor_c: 30,
  indoor_c: 25,
  indoor_wet_bulb_c: 18,
  supply_c: 14,
  return_c: 25,
  compressor_w: (sinceStartS: number) => (sinceStartS < 0 ? 0 : 2000),
} as const;

/** The readings of a log as the store hands them out. */
export function runLog(log: RunLog = {}): RunSeries {
  const { restS = 120, runS = 1800, intervalS = 5, restPa, mode, vacuumPa } = log;
  const rows = Array.from({ length: Math.floor((restS + runS) / intervalS) + 1 }, (_, row) => row * intervalS - restS);
  const column = (course: (sinceStartS: number) => number) => Float64Array.from(rows, course);
  const columns: Partial<Record<RunColumn, Float64Array>> = {};
  for (const [name, course] of Object.entries({ ...usualColumns, ...log.columns }) as [RunColumn, Course?][]) {
    if (course === undefined) continue;
    const isPressure = name === 'suction_pa' || name === 'liquid_pa';
    columns[name] = column((sinceS) => {
      if (isPressure && sinceS < 0 && restPa !== undefined) return restPa;
      return typeof course === 'number' ? course : course(sinceS);
    });
  }
  return {
    elapsedS: Float64Array.from(rows, (sinceS) => sinceS + restS),
    columns,
    mode: mode && column((sinceS) => runModes.indexOf(mode(sinceS) ?? ('' as 'cooling')) + 1),
    vacuumPa: vacuumPa && column(vacuumPa),
  };
}

/** The record of the system whose run test it is. */
export function jobOf(record: Partial<Job> = {}): Job {
  return {
    job_id: 'J-1',
    started_at: '2026-06-01T08:00:00Z',
    refrigerant: 'R-410A',
    metering: 'txv',
    barometer_pa: 101_325,
    ...record,
  };
}
