import { runColumns } from '../../records/run-columns.ts';
import type { Facts } from '../../records/tables/facts.ts';
import type { MeasuredMaterial } from '../job-material.ts';
import { siteAtmosphere } from '../site-atmosphere.ts';
import { judgedSeries } from '../vacuum-facts.ts';
import type { UnitSuspicion } from './unit-suspicion.ts';

/**
 * The facts of a job's readings without what rests on columns in another unit: their part of the job keeps the number of its
 * readings and why it carries no judgement. A clamp and the compressor's power are left out, and the rest is judged without.
 *
 * @param factsOf the facts of readings in their own units
 */
export function unjudged(
  units: readonly UnitSuspicion[],
  material: MeasuredMaterial,
  factsOf: (material: MeasuredMaterial) => Partial<Facts>,
): Partial<Facts> {
  if (units.length === 0) return factsOf(material);
  const has = (...columns: readonly UnitSuspicion['column'][]) => units.some(({ column }) => columns.includes(column));
  const { series: _, pressure, scale, run, line, ...records } = material;
  const isTimed = !has('elapsed_s');
  const isVacuum = isTimed && !has('vacuum_pa');
  const isTest = isTimed && !has('test_pressure_pa');
  const isRun = isTimed && !has(...judgedColumns);
  const { compressor_w: _power, ...columns } = run?.columns ?? {};
  const facts = factsOf({
    ...records,
    series: isVacuum ? material.series : [],
    ...(pressure !== undefined && isTest
      ? { pressure: has('line_c') ? { ...pressure, lineK: undefined } : pressure }
      : {}),
    ...(line !== undefined && !has('line_c') ? { line } : {}),
    ...(scale !== undefined && isTimed ? { scale } : {}),
    ...(run !== undefined && isRun ? { run: { ...run, columns: has('compressor_w') ? columns : run.columns } } : {}),
  });
  const why = isTimed ? 'other-unit' : 'time-unit';
  const vacuum = judgedSeries(material);
  return {
    ...facts,
    ...(isVacuum || vacuum === undefined ? {} : { vacuum_readings: vacuum.vacuumPa.length, vacuum_problem: why }),
    ...(isTest || pressure === undefined
      ? {}
      : {
          pressure_readings: pressure.testPa.length,
          pressure_problem: why,
          atmosphere_pa: siteAtmosphere(material.job),
        }),
    ...(isTimed || scale === undefined ? {} : { scale_readings: scale.scaleKg.length, scale_problem: 'time-unit' }),
    ...(isRun || run === undefined
      ? {}
      : {
          run_readings: run.elapsedS.length,
          run_problem: isTimed ? 'other-unit' : 'time-unit',
          atmosphere_pa: siteAtmosphere(material.job),
        }),
  };
}

/** What a run is judged by. */
const judgedColumns = runColumns.filter((name) => name !== 'supply_c' && name !== 'compressor_w');
