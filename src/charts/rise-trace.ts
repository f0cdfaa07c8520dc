import type { TopLevelSpec } from 'vega-lite';
import { vacuumText, type UnitSystem } from '../units/display.ts';
import { fromInterchange } from '../units/unit.ts';
import { type ChartColours, lightColours } from './chart-colours.ts';
import { chartConfig } from './chart-config.ts';
import { limitLines } from './limit-lines.ts';
import { isWithin, type PhaseSpan, type VacuumLimit, type VacuumRecording } from './vacuum-recording.ts';

export interface RiseTraceOptions {
  /** All phases; the last isolation is shown. */
  readonly phases: readonly PhaseSpan[];
  readonly limits: readonly VacuumLimit[];
  readonly units: UnitSystem;
  readonly colours?: ChartColours;
}

const HEIGHT_PX = 240;

/**
 * How did the pressure rise once the system was valved off?
 *
 * The isolation alone, on a linear axis from zero, where a straight rise looks straight and a rise that levels off
 * looks so too: a logarithmic axis over the whole job hides both. Limits far above the readings are left out.
 *
 * @param recording the whole job's recording
 * @returns Vega-Lite specification, or null where there is no isolation or fewer than three readings fall into it
 */
export function riseTrace(recording: VacuumRecording, options: RiseTraceOptions): TopLevelSpec | null {
  const { phases, units, colours = lightColours } = options;
  const isolation = phases.findLast(({ phase }) => phase === 'isolation');
  if (isolation === undefined) return null;
  const shown = (pa: number) => Number((units === 'ip' ? fromInterchange(pa, 'micron') : pa).toPrecision(4));
  const inside = recording.elapsedS
    .map((elapsedS, index) => ({ elapsedS, pa: recording.over[index] ? null : (recording.vacuumPa[index] ?? null) }))
    .filter(({ elapsedS }) => isWithin(elapsedS, isolation, phases));
  const read = inside.flatMap(({ pa }) => (pa === null ? [] : [pa]));
  if (read.length < 3) return null;
  const values = inside.map(({ elapsedS, pa }) => ({
    t: Math.round((elapsedS - isolation.startS) / 0.6) / 100,
    p: pa === null ? null : shown(pa),
  }));
  const largestPa = Math.max(...read);
  const near = options.limits.filter(({ pa }) => pa <= 2.5 * largestPa);
  const topPa = 1.12 * Math.max(largestPa, ...near.map(({ pa }) => pa));
  // A rise starts low on the left and ends high on the right: words keep to the empty corners.
  const isHigh = (pa: number) => pa > 0.7 * largestPa;
  const limits = limitLines(near, {
    pressureText: (pa) => vacuumText(pa, units),
    heightPx: (pa) => (HEIGHT_PX * pa) / topPa,
    alone: (pa) => (isHigh(pa) ? 'above' : 'below'),
  }).map((line) => ({ ...line, p: shown(line.pa), high: isHigh(line.pa) }));
  const halo = { stroke: colours.paper, strokeWidth: 3, strokeJoin: 'round' } as const;
  const limitText = {
    type: 'text',
    align: { expr: "datum.high ? 'left' : 'right'" },
    dx: { expr: 'datum.high ? 4 : -2' },
    dy: { expr: 'datum.offsetPx' },
    fontSize: 11,
  } as const;
  const limitEncoding = {
    x: { value: { expr: 'datum.high ? 0 : width' } },
    y: { field: 'p', type: 'quantitative' },
    text: { field: 'text', type: 'nominal' },
  } as const;
  return {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    width: 'container',
    height: HEIGHT_PX,
    layer: [
      {
        data: { name: 'limits', values: limits },
        mark: { type: 'rule', color: colours.fail, strokeWidth: 1.25, strokeDash: [6, 3] },
        encoding: { y: { field: 'p', type: 'quantitative' } },
      },
      { data: { name: 'limits' }, mark: { ...limitText, ...halo, color: colours.paper }, encoding: limitEncoding },
      {
        data: { name: 'readings', values },
        mark: { type: 'line', color: colours.accent, strokeWidth: 2.5, strokeCap: 'round', strokeJoin: 'round' },
        encoding: {
          x: {
            field: 't',
            type: 'quantitative',
            title: 'minutes since isolation began',
            scale: { domain: [0, Math.max(...values.map(({ t }) => t), 0.1)], nice: false },
            axis: { grid: false, tickCount: { expr: 'max(3, width / 80)' } },
          },
          y: {
            field: 'p',
            type: 'quantitative',
            title: null,
            scale: { domain: [0, shown(topPa)], nice: false },
            axis: { tickCount: 5, labelExpr: "join(split(format(datum.value, ',~f'), ','), ' ')" },
          },
        },
      },
      { data: { name: 'limits' }, mark: { ...limitText, color: colours.fail }, encoding: limitEncoding },
    ],
    config: chartConfig(colours),
  };
}
