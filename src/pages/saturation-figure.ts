import { pageColours } from '../charts/chart-colours.ts';
import type { SaturationGap } from '../charts/run-recording.ts';
import { type SaturationSide, saturationPoints } from '../charts/saturation-points.ts';
import { psigOrAbsoluteBarText, temperatureChangeText, temperatureText, type UnitSystem } from '../units/display.ts';
import type { KeyEntry } from './chart-key.ts';
import type { Html } from './html.ts';
import { namedId } from './named-id.ts';
import type { PageCharts } from './page-charts.ts';
import type { RunEvidence } from './job-evidence-data.ts';

/** Height of the chart with axes and labels [px]. */
const heightPx = 322;

/** The steady stretch of a job's run test as points on the saturation curve of its refrigerant; null where there are none. */
export async function saturationFigure(
  jobId: string,
  run: RunEvidence,
  units: UnitSystem,
  charts: PageCharts,
): Promise<Html | null> {
  const { superheat, subcooling, means, atmospherePa, isTwoPhase } = run;
  const suction = sideOf(superheat, means?.suctionPa, means?.targetSuperheatK);
  const liquid = isTwoPhase ? null : sideOf(subcooling, means?.liquidPa, means?.targetSubcoolingK);
  const options = { suction, liquid, atmospherePa, units };
  const chart = saturationPoints(run.curve ?? [], { ...options, colours: pageColours });
  if (chart === null) return null;
  const key = keyOfPoints(options, isTwoPhase);
  return charts.figure({
    name: 'saturation-points',
    subject: namedId('Job', jobId),
    title: 'How far from saturation was it, on the curve?',
    note: units === 'ip' ? 'psig over °F' : 'bar, absolute, over °C',
    chart,
    description: `${namedId('Job', jobId)}: the steady run on the saturation curve of its refrigerant, pressure over temperature. ${key.map(({ text }) => text).join('; ')}.`,
    heightPx,
    key,
  });
}

/** One side of the system; null where its pressure or its gap is not known. */
function sideOf(
  gap: SaturationGap | null,
  pressurePa: number | null | undefined,
  targetK: number | null | undefined,
): SaturationSide | null {
  if (gap === null || pressurePa === null || pressurePa === undefined) return null;
  return { pressurePa, gap, targetK: targetK ?? null };
}

interface DrawnSides {
  readonly suction: SaturationSide | null;
  readonly liquid: SaturationSide | null;
  readonly atmospherePa: number;
  readonly units: UnitSystem;
}

function keyOfPoints({ suction, liquid, atmospherePa, units }: DrawnSides, isTwoPhase: boolean): KeyEntry[] {
  const pointText = (line: string, name: string, { pressurePa, gap }: SaturationSide) =>
    `${line}: ${temperatureText(gap.lineK, units)} at ${psigOrAbsoluteBarText(pressurePa, atmospherePa, units)}, ${name} ${temperatureChangeText(gap.k, units)}`;
  const targetText = (name: string, targetK: number) => `target ${name}: ${temperatureChangeText(targetK, units)}`;
  const entries: KeyEntry[] = [
    { mark: 'accent-dashed', text: 'dew curve' },
    { mark: 'fitted', text: 'bubble curve' },
  ];
  if (suction !== null) entries.push({ mark: 'disc', text: pointText('suction line', 'superheat', suction) });
  if (suction !== null && suction.targetK !== null)
    entries.push({ mark: 'hollow-disc', text: targetText('superheat', suction.targetK) });
  if (liquid !== null) entries.push({ mark: 'square', text: pointText('liquid line', 'subcooling', liquid) });
  if (liquid !== null && liquid.targetK !== null)
    entries.push({ mark: 'hollow-square', text: targetText('subcooling', liquid.targetK) });
  if (isTwoPhase)
    entries.push({
      mark: 'none',
      text: 'metering device outdoors: the liquid line tells no subcooling, and is left out',
    });
  return entries;
}
