import { pageColours } from '../charts/chart-colours.ts';
import { type SharedCurve, sharedCurveTrace, sharedCurveUnit } from '../charts/shared-curve-trace.ts';
import type { UnitSystem } from '../units/display.ts';
import type { KeyEntry } from './chart-key.ts';
import type { Html } from './html.ts';
import { namedId } from './named-id.ts';
import type { PageCharts } from './page-charts.ts';

/** Height of the chart with axes and labels [px]. */
const heightPx = 250;

/** Some readings of a curve beside those of the other job in which it stands. */
export async function sharedCurveFigure(
  jobId: string,
  curve: SharedCurve,
  units: UnitSystem,
  charts: PageCharts,
): Promise<Html | false> {
  const chart = sharedCurveTrace(curve, { units, colours: pageColours });
  if (chart === null) return false;
  const { name } = sharedCurveUnit(curve, units);
  const other = namedId('job', curve.otherJobId);
  const key: KeyEntry[] = [
    { mark: 'readings', text: 'this job' },
    { mark: 'fitted', text: `${other}, the same readings, moved in time and to the same level` },
  ];
  const shown = `${curve.elapsedS.length} readings where the pressure moved least`;
  return charts.figure({
    name: 'shared-curve-trace',
    subject: namedId('Job', jobId),
    title: `Do the readings go together with those of ${other}?`,
    note: `${name === 'micron' ? 'microns' : name}, absolute; ${shown}`,
    chart,
    description: `${namedId('Job', jobId)} and ${other}: ${shown}.`,
    heightPx,
    key,
  });
}
