import { type UnitName, toInterchange } from '../../units/unit.ts';
import type { MeasuredMaterial } from '../job-material.ts';
import { siteAtmosphere } from '../site-atmosphere.ts';
import type { ScannedSeries } from './scanned-series.ts';
import type { UnitSuspicion } from './unit-suspicion.ts';

const units = ['hPa', 'Torr', 'kPa', 'inHga', 'psia'] as const satisfies readonly UnitName[];
type VacuumUnit = (typeof units)[number] | 'micron';

const names: Readonly<Record<VacuumUnit, string>> = {
  hPa: 'mbar',
  Torr: 'Torr',
  kPa: 'kPa',
  inHga: 'inHg absolute',
  psia: 'psia',
  micron: 'microns',
};

// Common practice, no source; set on simulated jobs (tests/truth).
/** A log begins at the air's pressure where so many readings are within this ratio of it, and of each other … */
const firstReadings = 4;
const airRatio = 0.03;
const stillRatio = 0.01;
/** … and later it is pulled down to this share of it: a level at the beginning of another log is not. */
const pulledShare = 0.01;
/** A step of the gauge is that of its record, times the unit, within this ratio: exports round. */
const stepRatio = 0.12;
/** Its range is that on record within this ratio. */
const overRatio = 0.03;
/** The highest reading in range reaches this share of the range on record. */
const rangeShare = 0.5;
/** Gauges of the trade, made for microns, show `over` from 12 000 µm to 30 000 µm on, which is 1.6 kPa to 4 kPa. */
const usualRangePa = [1500, 4100] as const;
/** No gauge for microns goes over so low [Pa]: its range was in another unit. */
const lowestRangePa = 60;
/** One that still shows whole numbers from here on, and goes over, shows microns [Pa]. */
const micronRangePa = [11_000, 31_000] as const;
/** A whole number that was converted to and fro is off by less [Pa]. */
const conversion = 1e-3;
/** A time between readings so many times the next one is a gap. */
const gapTimes = 3;
/** No pump of the trade pulls a circuit through hoses to so little [Pa]. */
const deepestPa = 0.2;
/** So many readings in a row are no slip of the gauge. */
const fewest = 10;

/** Whether the vacuum was read in another unit than pascals: by where the log begins, by its gauge, by where it goes over. */
export function vacuumUnit(
  all: readonly ScannedSeries[],
  { job, gauge }: Pick<MeasuredMaterial, 'job' | 'gauge'>,
): UnitSuspicion | undefined {
  const vacuum = all.find(({ series }) => series.column === 'vacuum_pa');
  if (vacuum === undefined || vacuum.scan.readings < fewest) return undefined;
  const airPa = siteAtmosphere(job);
  const isAirKnown = job?.barometer_pa !== undefined || job?.altitude_m !== undefined;
  return (
    beginsAtAir(vacuum, airPa, isAirKnown) ??
    byGauge(vacuum, gauge) ??
    (gauge?.kind === 'compound' ? undefined : byRange(vacuum)) ??
    tooDeep(vacuum)
  );
}

function suspicion(
  unit: VacuumUnit,
  rest: Pick<UnitSuspicion, 'sign' | 'isSure'> & { readonly also?: string | undefined },
): UnitSuspicion {
  return { column: 'vacuum_pa', said: 'Pa', likely: names[unit], factor: toInterchange(1, unit), ...rest };
}

/** A log that begins level at what the air has in another unit, and goes down from there. */
function beginsAtAir({ series, scan }: ScannedSeries, airPa: number, isAirKnown: boolean): UnitSuspicion | undefined {
  const first = series.values.subarray(0, firstReadings);
  if (first.length < firstReadings || first.includes(Number.POSITIVE_INFINITY)) return undefined;
  const level = first.reduce((sum, value) => sum + value, 0) / firstReadings;
  if (first.some((value) => Math.abs(value / level - 1) > stillRatio)) return undefined;
  if (scan.least > pulledShare * level || scan.most > level * (1 + airRatio) || scan.over > 0) return undefined;
  // The air of high places reads like that of low ones in a larger unit.
  const lowestAirPa = isAirKnown ? airPa * (1 - airRatio) : 70_000;
  const fitting = units.filter((unit) => {
    const pa = toInterchange(level, unit);
    return pa >= lowestAirPa && pa <= airPa * (1 + airRatio);
  });
  if (fitting.length === 0) return undefined;
  const nearest = fitting.toSorted(
    (a, b) => Math.abs(toInterchange(level, a) - airPa) - Math.abs(toInterchange(level, b) - airPa),
  );
  const [likely, other] = nearest;
  return suspicion(likely, { sign: 'begins-at-air', isSure: other === undefined, also: other && names[other] });
}

/** Steps and range beside those of the gauge on record. */
function byGauge({ scan }: ScannedSeries, gauge: MeasuredMaterial['gauge']): UnitSuspicion | undefined {
  const { step_pa: stepPa, range_max_pa: rangePa } = gauge ?? {};
  if (stepPa === undefined || rangePa === undefined || stepPa <= 0 || scan.step === 0) return undefined;
  const isOver = scan.over > 0;
  const fits = (factor: number) => {
    const isStep = Math.abs((scan.step * factor) / stepPa - 1) < stepRatio;
    const inRange = (scan.most * factor) / rangePa;
    return isStep && inRange <= 1 + overRatio && inRange >= (factor < 1 ? 0 : rangeShare);
  };
  if (fits(1)) return undefined;
  for (const unit of ['micron', ...units] as const) {
    const factor = toInterchange(1, unit);
    // Beyond its range no gauge shows a figure; a finer step than on record alone may be a better gauge.
    const isBeyond = scan.most > rangePa * (1 + overRatio);
    if (fits(factor) && (factor < 1 ? isBeyond : isOver))
      return suspicion(unit, { sign: 'gauge-on-record', isSure: true });
  }
  return undefined;
}

/** Where the gauge goes over: its last reading before and after. */
function byRange({ series, scan }: ScannedSeries): UnitSuspicion | undefined {
  const { values, elapsedS } = series;
  // In microns, or in a unit so large that hardly anything is in range.
  if (scan.over === 0 || (scan.most >= lowestRangePa && scan.most <= micronRangePa[0])) return undefined;
  let edges = 0;
  let highest = 0;
  for (let row = 1; row < values.length; row += 1) {
    const [before, after] = [values[row - 1], values[row]];
    const isEdge = (before === Number.POSITIVE_INFINITY) !== (after === Number.POSITIVE_INFINITY);
    if (!isEdge) continue;
    // Beside a gap nobody saw where the range ends.
    const besideS = row + 1 < values.length ? elapsedS[row + 1] - elapsedS[row] : Number.POSITIVE_INFINITY;
    if (elapsedS[row] - elapsedS[row - 1] > gapTimes * besideS) return undefined;
    edges += 1;
    highest = Math.max(highest, Math.min(before, after));
  }
  if (edges === 0) return undefined;
  // What was shown right beside `over`, and not a fall that nobody saw.
  if (highest === scan.most && scan.most < lowestRangePa) {
    const fitting = (['Torr', 'hPa', 'kPa'] as const).filter((unit) => {
      const pa = toInterchange(scan.most, unit);
      return pa > usualRangePa[0] && pa < usualRangePa[1];
    });
    const [likely, other] = fitting;
    if (likely !== undefined && isSmooth(values))
      return suspicion(likely, { sign: 'over-limit', isSure: false, also: other && names[other] });
  }
  const [fromPa, toPa] = micronRangePa;
  const isWhole =
    scan.most > fromPa &&
    scan.most < toPa &&
    values.every((value) => !Number.isFinite(value) || Math.abs(value - Math.round(value)) < conversion);
  return isWhole ? suspicion('micron', { sign: 'over-limit', isSure: false }) : undefined;
}

/** Whether the readings beside `over` go on step by step, so that the highest of them is near where the range ends. */
function isSmooth(values: Float64Array): boolean {
  for (let row = 2; row < values.length - 2; row += 1) {
    if (values[row] !== Number.POSITIVE_INFINITY) continue;
    const [before, earlier, after, later] = [values[row - 1], values[row - 2], values[row + 1], values[row + 2]];
    if (Number.isFinite(before) && !(earlier > before / 3)) return false;
    if (Number.isFinite(after) && !(later > after / 3)) return false;
  }
  return true;
}

/** A vacuum that no pump of the trade reaches, read again and again. */
function tooDeep({ series, scan }: ScannedSeries): UnitSuspicion | undefined {
  if (!(scan.least < deepestPa)) return undefined;
  let deep = 0;
  for (const value of series.values) if (value > 0 && value < deepestPa) deep += 1;
  return deep < fewest ? undefined : suspicion('hPa', { sign: 'too-deep', isSure: false, also: 'Torr or kPa' });
}
