import type { Facts } from '../../records/tables/facts.ts';
import { toInterchange } from '../../units/unit.ts';
import type { MeasuredMaterial } from '../job-material.ts';
import { siteAtmosphere } from '../site-atmosphere.ts';
import type { ScannedSeries } from './scanned-series.ts';
import type { UnitSuspicion } from './unit-suspicion.ts';

// Common practice, no source; set on simulated jobs (tests/truth).
/** Pressures to which circuits are tested, by the gauge [Pa]: 100 to 700 psig. */
const testPa = [690_000, 4_830_000] as const;
/** What never goes above this is no pressure test in pascals [Pa]. */
const noTestPa = 20_000;
/** Vented from at least so much [Pa] … */
const ventedFromPa = 500_000;
/** … a gauge that counts from the air shows no more than this [Pa] while an absolute one shows the air. */
const zeroPa = 12_000;
const fewest = 3;
/** Within so long after it was under pressure [s]: later it may have been evacuated. */
const soonS = 120;
/** Pressures at rest: surely off by so many standard uncertainties, and by another unit within so many. */
const sureDeviations = 4.5;
const fitsDeviations = 1.2;
/** What is said for kilopascals and is psi, and the other way round. */
const factors = [
  { factor: 6.894757, said: 'kPa', likely: 'psi' },
  { factor: 1 / 6.894757, said: 'psi', likely: 'kPa' },
] as const;

/** Whether the pressure of the standing test was read in another unit, or counts from the air. */
export function testPressureUnit(
  all: readonly ScannedSeries[],
  { job }: Pick<MeasuredMaterial, 'job'>,
): UnitSuspicion | undefined {
  const test = all.find(({ series }) => series.column === 'test_pressure_pa');
  if (test === undefined || test.scan.readings < 8) return undefined;
  const { most } = test.scan;
  if (most < noTestPa) {
    const likely = (['psia', 'bar', 'kPa', 'MPa'] as const).find((unit) => {
      const pa = toInterchange(most, unit);
      return pa >= testPa[0] && pa <= testPa[1];
    });
    if (likely === undefined) return undefined;
    const name = likely === 'psia' ? 'psi' : likely;
    const factor = toInterchange(1, likely);
    return { column: 'test_pressure_pa', sign: 'too-low', said: 'Pa', likely: name, factor, isSure: true };
  }
  const zero = showsZero(test, siteAtmosphere(job));
  return (
    zero && {
      column: 'test_pressure_pa',
      sign: 'vented',
      said: 'absolute pressure',
      likely: 'gauge pressure',
      factor: 1,
      isSure: zero === 'after',
      also: zero === 'before' ? 'a system that was evacuated before its test' : undefined,
    }
  );
}

/** Whether it stands at nothing right after it was let off, or right before it was filled, and never at the air. */
function showsZero({ series: { elapsedS, values } }: ScannedSeries, airPa: number): 'after' | 'before' | undefined {
  let [after, before] = [0, 0];
  let underS = Number.NEGATIVE_INFINITY;
  let isFilled = false;
  for (let row = 0; row < values.length; row += 1) {
    const pa = values[row];
    // An absolute gauge rests at the air.
    if (Math.abs(pa / airPa - 1) < 0.2) return undefined;
    if (pa > ventedFromPa) underS = elapsedS[row];
    if (pa < zeroPa && elapsedS[row] - underS < soonS) after += 1;
    if (!isFilled && pa < zeroPa) before += 1;
    if (pa > ventedFromPa) isFilled = true;
  }
  if (after >= fewest) return 'after';
  return isFilled && before >= fewest ? 'before' : undefined;
}

/**
 * Whether pressures of a running system are gauge pressures or in another unit, by the pressure at rest: it is far from what
 * the refrigerant has there, and just that in the other unit.
 *
 * @param facts of the run: `rest_pa`, `rest_expected_pa`, `rest_deviation`
 */
export function restUnit(facts: Partial<Facts>): UnitSuspicion | undefined {
  const { rest_pa: restPa, rest_expected_pa: expectedPa, rest_deviation: deviation, atmosphere_pa: airPa } = facts;
  if (restPa === undefined || expectedPa === undefined || deviation === undefined || airPa === undefined)
    return undefined;
  if (!(Math.abs(deviation) >= sureDeviations && restPa > 0 && expectedPa > 0)) return undefined;
  const uncertainPa = Math.abs((restPa - expectedPa) / deviation);
  const fits = (pa: number) => Math.abs(pa - expectedPa) <= fitsDeviations * uncertainPa;
  const { likely_refrigerant: other } = facts;
  const also =
    other === undefined ? (facts.rest_fits_none ? 'too little refrigerant' : undefined) : `${other} in the system`;
  const common = { column: facts.run_liquid_pa === undefined ? 'suction_pa' : 'liquid_pa', isSure: false } as const;
  if (fits(restPa + airPa))
    return { ...common, also, sign: 'rest-gauge', said: 'absolute pressure', likely: 'gauge pressure', factor: 1 };
  const found = factors.find(({ factor }) => fits(restPa * factor));
  return found && { ...common, also, ...found, sign: 'rest-factor' };
}
