import type { RecordedColumn } from '../../records/recording-columns.ts';
import { meanOf, type RunSeries } from '../../traces/run-series.ts';
import { runningStretches } from '../../traces/running-stretches.ts';
import { toInterchange } from '../../units/unit.ts';
import type { MeasuredMaterial } from '../job-material.ts';
import type { ScannedSeries } from './scanned-series.ts';
import type { UnitSuspicion } from './unit-suspicion.ts';

// Common practice, no source; set on simulated jobs (tests/truth).
/** Means above these are no air that a system is tested in [°C]; as degrees Fahrenheit they are no warmer than that. */
const tooWarm: readonly (readonly [RecordedColumn, number])[] = [
  ['outdoor_c', 58],
  ['indoor_c', 48],
  ['return_c', 48],
  ['indoor_wet_bulb_c', 42],
];
/** A pipe in the sun may be as warm as this [K]. */
const warmestPipeK = 273.15 + 66;
const hottest = 130;
/** A pipe that is so much warmer than all air is in another unit [K], where in that it is within so much of it [K]. */
const pipeApartK = 22;
const pipeWithinK = 5;
/** A line that stands is as warm as the air of one of its ends, within this [K], … */
const standsK = 2.5;
/** … and so far from it where it is in another unit [K]. */
const apartK = 12;
/** Air indoors and lines at rest are warmer than this only in another unit or in the sun [°C]. */
const usuallyBelowC = 33;
/** Before the start so many rows tell, and no more than so many are looked at. */
const fewest = 8;
const lastRows = 24;

const fahrenheit = { said: '°C', likely: '°F', factor: 5 / 9 } as const;

/** Whether temperatures of a column are degrees Fahrenheit: no air is so warm, or lines and air at rest are just so far apart. */
export function temperatureUnit(
  all: readonly ScannedSeries[],
  { line, pressure, run, job }: Pick<MeasuredMaterial, 'line' | 'pressure' | 'run' | 'job'>,
): UnitSuspicion | undefined {
  const warm = tooWarm.filter(([name, fromC]) => {
    const scan = all.find(({ series }) => series.column === name)?.scan;
    return scan !== undefined && scan.readings >= fewest && scan.mean > fromC && scan.most < hottest;
  });
  const [first] = warm;
  if (first !== undefined) return { ...fahrenheit, column: first[0], sign: 'too-warm', isSure: warm.length > 1 };
  const lineK = line?.meanK ?? (pressure?.lineK && meanOf(pressure.lineK, 0, pressure.lineK.length));
  if (lineK !== undefined && lineK > warmestPipeK && lineK < 273.15 + hottest)
    return { ...fahrenheit, column: 'line_c', sign: 'too-warm', isSure: false };
  if (lineK !== undefined && isAirInFahrenheit(lineK - 273.15, all))
    return { ...fahrenheit, column: 'line_c', sign: 'air-and-line', isSure: false };
  return run === undefined ? undefined : apartAtRest(run, job?.metering_location !== 'outdoor');
}

/** Whether a pipe is far warmer than the air of a run of the same job, and near it in the other unit. */
function isAirInFahrenheit(lineC: number, all: readonly ScannedSeries[]): boolean {
  const air = all.flatMap(({ series: { column }, scan }) =>
    column === 'outdoor_c' || column === 'indoor_c' || column === 'return_c' ? [scan.mean] : [],
  );
  if (air.length === 0 || lineC < Math.max(...air) + pipeApartK) return false;
  const asC = toInterchange(lineC, 'F');
  return asC > Math.min(...air) - pipeWithinK && asC < Math.max(...air) + pipeWithinK;
}

/** Air and lines before the first start: one of them in another unit. */
function apartAtRest(run: RunSeries, sidesTell: boolean): UnitSuspicion | undefined {
  const start = runningStretches(run, sidesTell)?.[0]?.fromRow ?? 0;
  if (start < fewest) return undefined;
  const mean = (name: keyof RunSeries['columns']) => meanOf(run.columns[name], Math.max(0, start - lastRows), start);
  const air = (['outdoor_c', 'indoor_c', 'return_c'] as const).map((name) => [name, mean(name)] as const);
  const known = air.filter(([, celsius]) => !Number.isNaN(celsius));
  const lines = (['suction_line_c', 'liquid_line_c'] as const)
    .map((name) => [name, mean(name)] as const)
    .filter(([, celsius]) => !Number.isNaN(celsius));
  if (known.length < 2 || lines.length === 0) return undefined;
  const [least, most] = [Math.min(...known.map(([, c]) => c)), Math.max(...known.map(([, c]) => c))];
  const isBetween = (celsius: number) => celsius > least - standsK && celsius < most + standsK;
  for (const [name, celsius] of lines) {
    const isOff = celsius > Math.max(usuallyBelowC, most + apartK);
    if (isOff && isBetween(toInterchange(celsius, 'F')))
      return { ...fahrenheit, column: name, sign: 'air-and-line', isSure: false };
  }
  // The air of one place is far from all the lines, and right among them in the other unit.
  const [lineLeast, lineMost] = [Math.min(...lines.map(([, c]) => c)), Math.max(...lines.map(([, c]) => c))];
  for (const [name, celsius] of known) {
    const others = known.filter(([other]) => other !== name).map(([, c]) => c);
    const isOff = celsius > Math.max(usuallyBelowC, Math.max(lineMost, ...others) + apartK);
    const asC = toInterchange(celsius, 'F');
    const isAmong = asC > Math.min(lineLeast, ...others) - standsK && asC < Math.max(lineMost, ...others) + standsK;
    if (isOff && isAmong) return { ...fahrenheit, column: name, sign: 'air-and-line', isSure: false };
  }
  return undefined;
}
