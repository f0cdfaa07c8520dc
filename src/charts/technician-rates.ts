import type { TopLevelSpec } from 'vega-lite';
import { type ChartColours, lightColours } from './chart-colours.ts';
import { chartConfig } from './chart-config.ts';
import { shareAxis } from './share-axis.ts';

/** What the log shows of one technician's jobs. */
export interface TechnicianRate {
  readonly technicianId: string;
  readonly name: string;
  /** Jobs that at least one check could judge. */
  readonly judged: number;
  /** Jobs of those with a suspect or fail finding. */
  readonly flagged: number;
  /** 95 % Wilson interval of flagged/judged [ratio]. */
  readonly low: number;
  readonly high: number;
}

export interface TechnicianRatesOptions {
  /** Share over all technicians [ratio], drawn as a line; null where nothing was judged. */
  readonly fleetShare: number | null;
  readonly colours?: ChartColours;
}

/** Height of one technician's row [px]. */
const ROW_HEIGHT_PX = 27;

/**
 * Whose jobs were flagged more often than the fleet's, beyond what chance explains?
 *
 * Dot, 95 % interval and number of judged jobs per technician, by name: not a league table. The fleet's share is the
 * dashed line; an interval across it shows no difference.
 *
 * @returns Vega-Lite specification, one row per technician in the order of the names
 *
 * Source: newcombe-1998 (interval, made by the caller)
 */
export function technicianRates(rates: readonly TechnicianRate[], options: TechnicianRatesOptions): TopLevelSpec {
  const { fleetShare, colours = lightColours } = options;
  const names = new Map<string, number>();
  for (const { name } of rates) names.set(name, (names.get(name) ?? 0) + 1);
  const values = rates
    .map((rate) => ({
      who: (names.get(rate.name) ?? 0) > 1 ? `${rate.name} (${rate.technicianId})` : rate.name,
      count: rate.judged === 0 ? 'none judged' : `${rate.flagged} of ${rate.judged}`,
      share: rate.judged === 0 ? null : rate.flagged / rate.judged,
      low: rate.judged === 0 ? null : rate.low,
      high: rate.judged === 0 ? null : rate.high,
    }))
    .toSorted((a, b) => a.who.localeCompare(b.who, 'en', { numeric: true }));
  const axis = shareAxis(Math.max(fleetShare ?? 0, ...values.map(({ high }) => high ?? 0)));
  return {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    width: 'container',
    height: Math.max(1, values.length) * ROW_HEIGHT_PX,
    layer: [
      {
        data: { name: 'fleet', values: fleetShare === null ? [] : [{ fleetShare }] },
        mark: { type: 'rule', color: colours.ink, strokeWidth: 1.25, strokeDash: [5, 3] },
        encoding: { x: { field: 'fleetShare', type: 'quantitative' } },
      },
      {
        data: { name: 'fleet' },
        mark: { type: 'text', align: 'center', baseline: 'bottom', dy: -4, fontSize: 11 },
        encoding: {
          x: { field: 'fleetShare', type: 'quantitative' },
          y: { value: 0 },
          text: { value: { expr: "'all ' + format(datum.fleetShare, '.0%')" } },
        },
      },
      {
        data: { name: 'technicians', values },
        mark: { type: 'rule', color: colours.accent, strokeWidth: 3, strokeCap: 'round', opacity: 0.55 },
        encoding: {
          x: { field: 'low', type: 'quantitative' },
          x2: { field: 'high' },
          y: {
            field: 'who',
            type: 'nominal',
            sort: null,
            scale: { domain: values.map(({ who }) => who) },
            title: null,
            axis: {
              labelColor: colours.ink,
              labelFontSize: 12,
              labelLimit: { expr: 'max(116, 0.32 * containerSize()[0])' },
            },
          },
        },
      },
      {
        data: { name: 'technicians' },
        mark: { type: 'point', filled: true, color: colours.accent, size: 70, opacity: 1 },
        encoding: {
          x: {
            field: 'share',
            type: 'quantitative',
            title: 'share of judged jobs flagged',
            scale: { domain: axis.domain, nice: false },
            axis: { format: '.0%', values: axis.values, tickCount: axis.values.length, labelFlush: false },
          },
          y: { field: 'who', type: 'nominal', sort: null },
        },
      },
      {
        data: { name: 'technicians' },
        mark: { type: 'text', align: 'left', dx: 8, color: colours.muted, fontSize: 11 },
        encoding: {
          x: { value: 'width' },
          y: { field: 'who', type: 'nominal', sort: null },
          text: { field: 'count', type: 'nominal' },
        },
      },
    ],
    config: chartConfig(colours),
  };
}
