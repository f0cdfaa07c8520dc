import { isWithin, type PhaseSpan } from '../charts/vacuum-recording.ts';
import { durationText, type UnitSystem, vacuumText } from '../units/display.ts';
import type { JobEvidence } from './job-evidence-data.ts';

/** First and last pressures read in a phase [Pa]; above the gauge's range is infinite. */
export function phaseReadings(
  span: PhaseSpan,
  { trace, phases }: JobEvidence,
): { first: number | undefined; last: number | undefined } {
  const read = trace?.elapsedS.flatMap((elapsedS, index) => {
    if (!isWithin(elapsedS, span, phases)) return [];
    if (trace.over[index]) return [Number.POSITIVE_INFINITY];
    const pa = trace.vacuumPa[index] ?? null;
    return pa === null ? [] : [pa];
  });
  return { first: read?.[0], last: read?.at(-1) };
}

/** A pressure as people read it; a dash where none was read. */
export const readingText = (pa: number | undefined, units: UnitSystem) =>
  pa === undefined ? '–' : vacuumText(pa, units);

/** A phase in words: its length, and from where to where it went. */
export function phaseText(span: PhaseSpan, job: JobEvidence, units: UnitSystem): string {
  const { first, last } = phaseReadings(span, job);
  return `${span.phase} ${durationText(span.endS - span.startS)}, from ${readingText(first, units)} to ${readingText(last, units)}`;
}
