import type { TopLevelSpec } from 'vega-lite';
import { gaugePressureText, type UnitSystem } from '../units/display.ts';
import { fromInterchange } from '../units/unit.ts';
import { type ChartColours, lightColours } from './chart-colours.ts';
import { chartConfig } from './chart-config.ts';
import { chartTime } from './chart-time.ts';
import { emptyCorner } from './empty-corner.ts';
import { limitLines } from './limit-lines.ts';
import { limitWords } from './limit-words.ts';
import type { JudgedHoldSpan, PressureHoldSpan, PressureLimit, PressureRecording } from './pressure-recording.ts';

export interface StandingTestTraceOptions {
  /** Pressure of the air, from which gauges count [Pa]. */
  readonly atmospherePa: number;
  readonly holds: readonly PressureHoldSpan[];
  /** The hold that is judged; null where none is. */
  readonly judged: JudgedHoldSpan | null;
  readonly limits: readonly PressureLimit[];
  readonly units: UnitSystem;
  readonly colours?: ChartColours;
}

const HEIGHT_PX = 240;
/** What lies so many times above the readings, as gauges count, is left out: it would press them flat. */
const FAR = 1.8;

/**
 * Limits that lie too far above the readings to be drawn.
 *
 * @param recording of the same test
 */
export function limitsAbove(
  recording: PressureRecording,
  { atmospherePa, limits }: Pick<StandingTestTraceOptions, 'atmospherePa' | 'limits'>,
): PressureLimit[] {
  const highestPa = Math.max(atmospherePa, ...recording.testPa);
  return limits.filter(({ pa }) => pa - atmospherePa > FAR * (highestPa - atmospherePa));
}

/**
 * How did the pressure test go: how high, in which stages, held for how long?
 *
 * Pressure from the air's on, as a gauge shows it, in psi (ip) or bar (si), over minutes, or hours where the test is long. Holds
 * are shaded, the one that is judged stronger, and its readings thick; limits as labelled lines. What a leak of some psi
 * does is not to be seen here: `heldPressureTrace` shows it.
 *
 * @param recording at most some hundred readings: decimate before
 */
export function standingTestTrace(recording: PressureRecording, options: StandingTestTraceOptions): TopLevelSpec {
  const { atmospherePa, holds, judged, units, colours = lightColours } = options;
  const shown = (pa: number) =>
    Number(fromInterchange(pa - atmospherePa, units === 'ip' ? 'psia' : 'bar').toPrecision(5));
  const above = limitsAbove(recording, options);
  const near = options.limits.filter((limit) => !above.includes(limit));
  const basePa = atmospherePa;
  const topPa = basePa + 1.12 * (Math.max(atmospherePa, ...recording.testPa, ...near.map(({ pa }) => pa)) - basePa);
  const endS = Math.max(6, recording.elapsedS.at(-1) ?? 0);
  const time = chartTime(endS);
  const isJudged = ({ startS }: PressureHoldSpan) => startS === judged?.startS;
  const values = recording.elapsedS.map((elapsedS, index) => {
    const row = { t: time.of(elapsedS), p: shown(recording.testPa[index] ?? basePa) };
    return judged !== null && elapsedS >= judged.startS && elapsedS <= judged.endS ? { ...row, judged: true } : row;
  });
  const heightPx = (pa: number) => (HEIGHT_PX * (pa - basePa)) / (topPa - basePa);
  const curve = recording.elapsedS.map((elapsedS, index) => ({
    across: elapsedS / endS,
    heightPx: heightPx(recording.testPa[index] ?? basePa),
  }));
  const limits = limitLines(near, {
    pressureText: (pa) => gaugePressureText(pa, atmospherePa, units),
    heightPx,
    alone: (pa) => (emptyCorner([curve], heightPx(pa)).isAbove ? 'above' : 'below'),
  }).map((line) => ({
    ...line,
    p: shown(line.pa),
    side: emptyCorner([curve], heightPx(line.pa), line.offsetPx < 0).side,
  }));
  const spans = holds.map((span) => ({
    from: time.of(span.startS),
    to: time.of(span.endS),
    name: isJudged(span) ? 'judged hold' : 'hold',
  }));
  const x = { type: 'quantitative' } as const;
  const y = { field: 'p', type: 'quantitative' } as const;
  const isJudgedName = "datum.name === 'judged hold'";
  const nameFits = "(scale('x', datum.to) - scale('x', datum.from)) > 6.2 * length(datum.name)";
  const limit = limitWords(colours);
  return {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    width: 'container',
    height: HEIGHT_PX,
    layer: [
      {
        data: { name: 'holds', values: spans },
        mark: {
          type: 'rect',
          color: { expr: `${isJudgedName} ? '${colours.accent}' : '${colours.muted}'` },
          opacity: { expr: `${isJudgedName} ? 0.16 : 0.1` },
        },
        encoding: {
          x: {
            ...x,
            field: 'from',
            title: `${time.unit} since the log of the test began`,
            scale: { domain: [0, time.of(endS)], nice: false },
            axis: { grid: false, tickCount: { expr: 'max(3, width / 90)' } },
          },
          x2: { field: 'to' },
        },
      },
      {
        data: { name: 'holds' },
        transform: [{ calculate: '(datum.from + datum.to) / 2', as: 'middle' }],
        mark: {
          type: 'text',
          baseline: 'bottom',
          dy: -5,
          fontSize: 11,
          fontWeight: { expr: `${isJudgedName} ? 'bold' : 'normal'` },
          color: { expr: `${isJudgedName} ? '${colours.accent}' : '${colours.muted}'` },
          opacity: { expr: `${nameFits} ? 1 : 0` },
        },
        encoding: { x: { ...x, field: 'middle' }, y: { value: 0 }, text: { field: 'name', type: 'nominal' } },
      },
      {
        data: { name: 'limits', values: limits },
        mark: { type: 'rule', color: colours.fail, strokeWidth: 1.25, strokeDash: [6, 3] },
        encoding: { y },
      },
      limit.halo,
      {
        data: { name: 'readings', values },
        mark: { type: 'line', color: colours.ink, strokeWidth: 1.5 },
        encoding: {
          x: { ...x, field: 't' },
          y: {
            ...y,
            title: null,
            scale: { domain: [shown(basePa), shown(topPa)], nice: false },
            axis: { tickCount: 5, labelExpr: "join(split(format(datum.value, ',~f'), ','), ' ')" },
          },
        },
      },
      {
        data: { name: 'readings' },
        transform: [{ filter: 'datum.judged' }],
        mark: { type: 'line', color: colours.accent, strokeWidth: 3.5, strokeCap: 'round' },
        encoding: { x: { ...x, field: 't' }, y },
      },
      limit.words,
    ],
    config: chartConfig(colours),
  };
}
