import type { TopLevelSpec } from 'vega-lite';
import { fromInterchange } from '../units/unit.ts';
import type { UnitSystem } from '../units/display.ts';
import { type ChartColours, lightColours } from './chart-colours.ts';
import { chartConfig } from './chart-config.ts';

/** The smallest leak that a test of a length sees, from least to most it may lose. */
export interface SeenByLength {
  readonly durationS: number;
  readonly lowKgPerYear: number;
  readonly highKgPerYear: number;
}

/** What each test sees, its lengths rising; empty for a test that is not planned. */
export interface PlanCurves {
  readonly pressureTest: readonly SeenByLength[];
  /** Climbs of the rise test that show at all, and those that are told for a leak. */
  readonly riseShown: readonly SeenByLength[];
  readonly riseTold: readonly SeenByLength[];
}

export interface PlanChartOptions {
  /** A leak that was asked for, drawn as a line; null for none. */
  readonly lossKgPerYear: number | null;
  readonly units: UnitSystem;
  readonly colours?: ChartColours;
}

interface EdgeMark {
  readonly color: string;
  readonly strokeWidth: number;
  readonly strokeDash?: number[];
}

/** Lengths that people think in [s]. */
const lengthTicksS = [300, 900, 3600, 14_400, 86_400, 604_800];
const lengthLabel =
  "datum.value < 3600 ? datum.value / 60 + ' min' : datum.value <= 86400 ? datum.value / 3600 + ' h' : datum.value / 86400 + ' d'";
/** Losses that people think in, each unit from where it is used [oz or g]. */
const lossAxis = {
  ip: {
    unit: 'oz',
    ticks: [0.001, 0.01, 0.1, 1, 16, 160, 1600, 16_000, 160_000],
    label: "datum.value < 16 ? datum.value + ' oz' : join(split(format(datum.value / 16, ','), ','), ' ') + ' lb'",
  },
  si: {
    unit: 'g',
    ticks: [0.01, 0.1, 1, 10, 100, 1000, 10_000, 100_000, 1e6, 1e7],
    label: "datum.value < 1000 ? datum.value + ' g' : join(split(format(datum.value / 1000, ','), ','), ' ') + ' kg'",
  },
} as const;

/**
 * How small a leak does a test see, by its length?
 *
 * Both axes logarithmic. A band for each test: from least to most that the smallest leak it tells may lose, over the
 * sorts of opening. Of the rise test the filled band is a leak told for one; dashed, what shows at all. A leak that was
 * asked for is a line: where it meets the upper edge of a band, that length does whatever the opening is like.
 *
 * @returns Vega-Lite specification, or null where no test is planned
 */
export function planChart(curves: PlanCurves, options: PlanChartOptions): TopLevelSpec | null {
  const { lossKgPerYear, units, colours = lightColours } = options;
  const axis = lossAxis[units];
  const shown = (kg: number) => Number(fromInterchange(kg, axis.unit).toPrecision(4));
  const all = [...curves.pressureTest, ...curves.riseShown, ...curves.riseTold];
  if (all.length === 0) return null;
  const lengths = all.map(({ durationS }) => durationS);
  const losses = [
    ...all.flatMap(({ lowKgPerYear, highKgPerYear }) => [lowKgPerYear, highKgPerYear]),
    ...(lossKgPerYear === null ? [] : [lossKgPerYear]),
  ];
  const rows = (seen: readonly SeenByLength[]) =>
    seen.map(({ durationS, lowKgPerYear, highKgPerYear }) => ({
      t: durationS,
      low: shown(lowKgPerYear),
      high: shown(highKgPerYear),
    }));
  const x = { field: 't', type: 'quantitative' } as const;
  const low = { field: 'low', type: 'quantitative' } as const;
  const high = { field: 'high', type: 'quantitative' } as const;
  const edge = (data: { name: string; values?: object[] }, y: typeof low | typeof high, mark: EdgeMark) => ({
    data,
    mark: { type: 'line' as const, ...mark },
    encoding: { x, y },
  });
  const shownEdge = { color: colours.muted, strokeWidth: 1.25, strokeDash: [4, 3] };
  const toldEdge = { color: colours.muted, strokeWidth: 1.5 };
  const pressureEdge = { color: colours.accent, strokeWidth: 1.75 };
  return {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    width: 'container',
    height: 320,
    layer: [
      {
        data: { name: 'rise-told', values: rows(curves.riseTold) },
        mark: { type: 'area', color: colours.muted, opacity: 0.22 },
        encoding: {
          x: {
            ...x,
            title: 'length of the test',
            scale: { type: 'log', domain: [Math.min(...lengths), Math.max(...lengths)], nice: false },
            axis: {
              grid: false,
              values: lengthTicksS,
              labelExpr: lengthLabel,
              labelFlush: true,
              labelOverlap: 'greedy',
            },
          },
          y: {
            ...low,
            title: null,
            scale: {
              type: 'log',
              domain: [shown(Math.min(...losses)) / 1.3, shown(Math.max(...losses)) * 1.3],
              nice: false,
            },
            axis: { values: [...axis.ticks], labelExpr: axis.label },
          },
          y2: { field: 'high' },
        },
      },
      {
        data: { name: 'pressure-test', values: rows(curves.pressureTest) },
        mark: { type: 'area', color: colours.accent, opacity: 0.3 },
        encoding: { x, y: low, y2: { field: 'high' } },
      },
      edge({ name: 'rise-shown', values: rows(curves.riseShown) }, low, shownEdge),
      edge({ name: 'rise-shown' }, high, shownEdge),
      edge({ name: 'rise-told' }, low, toldEdge),
      edge({ name: 'rise-told' }, high, toldEdge),
      edge({ name: 'pressure-test' }, low, pressureEdge),
      edge({ name: 'pressure-test' }, high, pressureEdge),
      {
        data: { name: 'asked', values: lossKgPerYear === null ? [] : [{ loss: shown(lossKgPerYear) }] },
        mark: { type: 'rule', color: colours.fail, strokeWidth: 1.5, strokeDash: [6, 3] },
        encoding: { y: { field: 'loss', type: 'quantitative' } },
      },
    ],
    config: chartConfig(colours),
  };
}
