import { brokenLines } from '../units/broken-lines.ts';
import { visibleText } from '../units/visible-text.ts';

/** Columns that a terminal shows whole: its own, or 100 where there is none to ask. */
export function textWidth(): number {
  return Math.min(100, Math.max(40, process.stdout.columns ?? 100));
}

/**
 * A text in lines that a terminal shows whole; a space that does not break is not broken at.
 *
 * @param margin what every line begins with
 */
export function wrappedText(text: string, margin: string = ''): string[] {
  return brokenLines(visibleText(text), textWidth() - margin.length).map((line) => `${margin}${line}`);
}
