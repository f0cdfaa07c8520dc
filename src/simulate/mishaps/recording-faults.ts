import type { SimulatedJob } from '../job.ts';
import type { JobReadings } from '../job-log.ts';
import { rowsWithout, scaled, shiftedFrom, standing } from './changed-readings.ts';

/** Something that goes wrong with a log after it was read, and the check that should see it. */
export interface Fault {
  readonly name: string;
  readonly check: 'gaps' | 'clock' | 'stuck-sensor' | 'wrong-unit';
  /** The columns that it is in; absent where it is in the rows. */
  readonly columns?: readonly (keyof JobReadings)[];
  /** Whether the gauges on record are not there to compare with. */
  readonly isWithoutGauge?: boolean;
  /** The log with it; undefined where it cannot happen, or would not change what anybody sees. */
  readonly happens: (readings: JobReadings, job: SimulatedJob) => JobReadings | undefined;
}

type Column = Exclude<keyof JobReadings, 'elapsedS'>;

const unit = (name: string, column: Column, change: (value: number) => number, needs = 20): Fault => ({
  name,
  check: 'wrong-unit',
  columns: [column],
  happens: (readings) => (readCount(readings[column]) < needs ? undefined : scaled(readings, column, change)),
});

const micronPa = 0.133322368;
const psiPa = 6894.757293168;
const fahrenheit = (celsius: number) => celsius * 1.8 + 32;

/** Units: each on every job that has the column. */
export const unitFaults: readonly Fault[] = [
  unit('vacuum in microns', 'vacuumPa', (pa) => pa / micronPa),
  { ...unit('vacuum in microns, no gauge on record', 'vacuumPa', (pa) => pa / micronPa), isWithoutGauge: true },
  { ...unit('vacuum in Torr, no gauge on record', 'vacuumPa', (pa) => pa / micronPa / 1000), isWithoutGauge: true },
  { ...unit('vacuum in mbar, no gauge on record', 'vacuumPa', (pa) => pa / 100), isWithoutGauge: true },
  unit('vacuum in Torr', 'vacuumPa', (pa) => pa / micronPa / 1000),
  unit('vacuum in mbar', 'vacuumPa', (pa) => pa / 100),
  unit('vacuum in kPa', 'vacuumPa', (pa) => pa / 1000),
  wideGauge('vacuum in Torr from the air on', 133.322368),
  wideGauge('vacuum in mbar from the air on', 100),
  wideGauge('vacuum in inHg absolute from the air on', 3386.388640341),
  unit('test in psi', 'testPa', (pa) => (pa - 101_325) / psiPa),
  unit('test in bar', 'testPa', (pa) => pa / 1e5),
  unit('test in gauge pressure', 'testPa', (pa) => Math.max(0, pa - 101_325)),
  {
    name: 'run in gauge pressure',
    check: 'wrong-unit',
    columns: ['suctionPa', 'liquidPa'],
    happens: (readings) => inBoth(readings, (pa) => Math.max(0, pa - 101_325)),
  },
  {
    name: 'run in psi as kPa',
    check: 'wrong-unit',
    columns: ['suctionPa', 'liquidPa'],
    happens: (readings) => inBoth(readings, (pa) => (pa / psiPa) * 1000),
  },
  unit('outdoors in °F', 'outdoorC', fahrenheit),
  unit('suction line in °F', 'suctionLineC', fahrenheit),
  unit('liquid line in °F', 'liquidLineC', fahrenheit),
  unit('line in °F', 'lineC', fahrenheit),
  unit('power in kW', 'compressorW', (watts) => watts / 1000),
  {
    name: 'times in minutes',
    check: 'wrong-unit',
    columns: ['elapsedS'],
    happens: (readings) => ({ ...readings, elapsedS: readings.elapsedS.map((atS) => atS / 60) }),
  },
  {
    name: 'times in milliseconds',
    check: 'wrong-unit',
    columns: ['elapsedS'],
    happens: (readings) => ({ ...readings, elapsedS: readings.elapsedS.map((atS) => atS * 1000) }),
  },
];

/** Jumps of the clock while the vacuum is pulled down, the refrigerant flows, or the run starts. */
export const clockFaults: readonly Fault[] = [300, 3600, 43_200].flatMap((jumpS) =>
  (['pull-down', 'charge', 'start of the run'] as const).map(
    (when): Fault => ({
      name: `clock ${jumpS / 60} min ahead, ${when}`,
      check: 'clock',
      happens: (readings, job) => {
        const atS = moment(readings, job, when);
        return atS === undefined ? undefined : shiftedFrom(readings, atS, jumpS);
      },
    }),
  ),
);

/** The clock put back in the pull-down, the rise or the run. */
export const backFaults: readonly Fault[] = [120, 600].flatMap((jumpS) =>
  (['pull-down', 'charge', 'start of the run'] as const).map(
    (when): Fault => ({
      name: `clock ${jumpS / 60} min back, ${when}`,
      check: 'clock',
      happens: (readings, job) => {
        const atS = moment(readings, job, when);
        return atS === undefined || atS + 20 < jumpS ? undefined : shiftedFrom(readings, atS + jumpS / 2, -jumpS);
      },
    }),
  ),
);

/** Readings left out of the rise test, the standing test and the run. */
export const gapFaults: readonly Fault[] = [0.15, 0.3, 0.7].flatMap((share) =>
  (['rise test', 'pressure test', 'run'] as const).map(
    (phase): Fault => ({
      name: `${Math.round(share * 100)} % of the ${phase} left out`,
      check: 'gaps',
      happens: (readings, { truth }) => {
        const [fromS, toS] = {
          'rise test': [truth.isolation_start_s, truth.isolation_end_s],
          'pressure test': [truth.pressure_hold_start_s, truth.pressure_hold_end_s],
          run: [truth.steady_start_s, truth.steady_end_s],
        }[phase];
        if (fromS === undefined || toS === undefined || (toS - fromS) * share < 45) return undefined;
        const beginS = fromS + 0.15 * (toS - fromS);
        return rowsWithout(readings, beginS, beginS + share * (toS - fromS));
      },
    }),
  ),
);

/** A sensor that hangs for some minutes. */
export const stuckFaults: readonly Fault[] = [120, 300, 600].flatMap((lengthS) =>
  (
    [
      ['vacuumPa', 'pull-down'],
      ['vacuumPa', 'rise test'],
      ['scaleKg', 'charge'],
      ['suctionPa', 'start of the run'],
      ['liquidPa', 'run'],
      ['testPa', 'pressure test'],
    ] as const
  ).map(
    ([column, when]): Fault => ({
      name: `${column} hangs for ${lengthS / 60} min, ${when}`,
      check: 'stuck-sensor',
      columns: [column],
      happens: (readings, job) => {
        const atS = moment(readings, job, when);
        if (atS === undefined) return undefined;
        const fromS = when === 'start of the run' ? atS - 60 : atS;
        return standing(readings, column, fromS, fromS + lengthS);
      },
    }),
  ),
);

/** A sensor that shows one value from first to last, and gauges whose range ends too soon. */
export const clippedFaults: readonly Fault[] = [
  {
    name: 'suctionPa one value all along',
    check: 'stuck-sensor',
    columns: ['suctionPa'],
    happens: (readings) => {
      const first = readings.suctionPa?.find((pa) => !Number.isNaN(pa));
      if (first === undefined) return undefined;
      return scaled(readings, 'suctionPa', (pa) => (Number.isNaN(pa) ? pa : first));
    },
  },
  ...(['suctionPa', 'liquidPa', 'testPa'] as const).map(
    (column): Fault => ({
      name: `${column} clipped half way up`,
      check: 'stuck-sensor',
      columns: [column],
      happens: (readings) => {
        const read = (readings[column] ?? new Float64Array()).filter((pa) => !Number.isNaN(pa)).toSorted();
        if (read.length < 100) return undefined;
        const most = read[read.length >> 1];
        return scaled(readings, column, (pa) => (pa > most ? most : pa));
      },
    }),
  ),
];

export const recordingFaults: readonly Fault[] = [
  ...unitFaults,
  ...clockFaults,
  ...backFaults,
  ...gapFaults,
  ...stuckFaults,
  ...clippedFaults,
];

function readCount(values: Float64Array | undefined): number {
  return values?.reduce((count, value) => count + (Number.isNaN(value) ? 0 : 1), 0) ?? 0;
}

/** Both pressures of a run changed; undefined where none was read. */
function inBoth(readings: JobReadings, change: (pa: number) => number): JobReadings | undefined {
  if (readCount(readings.suctionPa) + readCount(readings.liquidPa) < 20) return undefined;
  return scaled(scaled(readings, 'suctionPa', change), 'liquidPa', change);
}

/** A gauge that reads up to the air, in another unit: what was over shows the air. */
function wideGauge(name: string, unitPa: number): Fault {
  return {
    name,
    check: 'wrong-unit',
    columns: ['vacuumPa'],
    happens: (readings, { job }) => {
      const from = readings.vacuumPa.findIndex((pa) => !Number.isNaN(pa));
      if (from < 0 || readings.vacuumPa[from] < 50_000 || readings.vacuumPa[from + 5] !== Number.POSITIVE_INFINITY)
        return undefined;
      const airPa = job.barometer_pa ?? 101_325 * (1 - 2.25577e-5 * (job.altitude_m ?? 0)) ** 5.25588;
      return scaled(readings, 'vacuumPa', (pa) => Math.min(pa, airPa) / unitPa);
    },
  };
}

type When = 'pull-down' | 'rise test' | 'charge' | 'start of the run' | 'run' | 'pressure test';

/** A moment of a job while something goes on [s]; undefined where the log does not show it. */
function moment(readings: JobReadings, { truth }: SimulatedJob, when: When): number | undefined {
  const { elapsedS, vacuumPa, scaleKg, compressorW } = readings;
  const at = (index: number) => (index < 0 ? undefined : elapsedS[index]);
  const later = (atS: number | undefined, byS: number) => (atS === undefined ? undefined : atS + byS);
  // Some readings into what the gauge shows of it.
  if (when === 'pull-down')
    return at(vacuumPa.findIndex((pa, row) => pa < 1000 && pa < 0.97 * vacuumPa[row - 2] && vacuumPa[row - 9] < 3000));
  if (when === 'rise test') return later(truth.isolation_start_s, 60);
  if (when === 'pressure test') return later(truth.pressure_hold_start_s, 120);
  if (when === 'charge') {
    const first = scaleKg.findIndex((kg) => !Number.isNaN(kg));
    return at(scaleKg.findIndex((kg, row) => row > first + 20 && scaleKg[row - 8] - kg > 0.06));
  }
  const startS = at(compressorW?.findIndex((watts) => watts > 100) ?? -1);
  return when === 'run' ? later(startS, 480) : later(startS, 40);
}
