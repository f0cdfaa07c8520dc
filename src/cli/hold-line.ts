import { LEAST_SPAN_PA } from '../charts/held-pressure-trace.ts';
import type { PressureEvidence } from '../pages/job-evidence-data.ts';
import { pressureChangeText, type UnitSystem } from '../units/display.ts';
import { bars } from './sparkline.ts';

/**
 * The judged hold of a pressure test in one line of text under a line of words: what is left of the change of pressure once
 * temperature is taken out, or as it was read where that cannot be. Between two readings it goes straight.
 *
 * @returns no line where no hold is judged, or fewer than three readings are
 */
export function holdLine({ trace, judged, corrected }: PressureEvidence, units: UnitSystem, width: number): string[] {
  if (judged === null) return [];
  const { settledS, endS } = judged;
  const asRead = trace.elapsedS.flatMap((atS, index) =>
    atS >= settledS && atS <= endS ? [{ atS, pa: trace.testPa[index] }] : [],
  );
  const points = corrected?.elapsedS.map((atS, index) => ({ atS, pa: corrected.besidePa[index] })) ?? asRead;
  if (points.length < 3) return [];
  const changes = evenly(points, width);
  const [low, high] = [Math.min(...changes), Math.max(...changes)];
  const spanPa = Math.max(LEAST_SPAN_PA, high - low);
  const basePa = (low + high - spanPa) / 2;
  const line = changes.map((pa) => bars[Math.min(bars.length - 1, Math.floor((bars.length * (pa - basePa)) / spanPa))]);
  const what = corrected === null ? 'as read' : 'temperature taken out';
  return [`judged hold after settling, ${what}; the bars span ${pressureChangeText(spanPa, units)}`, line.join('')];
}

/** Values at so many even times from the first point to the last. */
function evenly(points: readonly { readonly atS: number; readonly pa: number }[], count: number): number[] {
  const [firstS, lastS] = [points[0]?.atS ?? 0, points.at(-1)?.atS ?? 0];
  let next = 1;
  return Array.from({ length: count }, (_, place) => {
    const atS = firstS + ((lastS - firstS) * place) / (count - 1);
    while (next < points.length - 1 && points[next].atS < atS) next += 1;
    const [a, b] = [points[next - 1], points[next]];
    return b.atS > a.atS ? a.pa + ((b.pa - a.pa) * (atS - a.atS)) / (b.atS - a.atS) : b.pa;
  });
}
