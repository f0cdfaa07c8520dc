/**
 * The colours a chart is drawn with: our own, with enough contrast for text, and the outcomes' colours apart for
 * red-, green- and blue-blind eyes too (both tested); still never the only carrier of a meaning.
 */
export interface ChartColours {
  /** Text and axes that are read first. */
  readonly ink: string;
  /** Text and lines that are read second. */
  readonly muted: string;
  /** Grid lines and borders. */
  readonly rule: string;
  /** What lies behind; also the halo around labels. */
  readonly paper: string;
  /** The measured thing. */
  readonly accent: string;
  /** Suspect outcomes, and readings that the gauge could not carry. */
  readonly suspect: string;
  /** Fail outcomes, and limits. */
  readonly fail: string;
  /** Pass outcomes. */
  readonly pass: string;
}

/** On white paper and in pictures. */
export const lightColours: ChartColours = {
  ink: '#1b2026',
  muted: '#56616e',
  rule: '#d5dae0',
  paper: '#fdfdfb',
  accent: '#1c5c9e',
  suspect: '#946000',
  fail: '#970f3e',
  pass: '#0a6c80',
};

/** On a dark screen. */
export const darkColours: ChartColours = {
  ink: '#e9ebee',
  muted: '#a6b0bb',
  rule: '#3a4149',
  paper: '#15181b',
  accent: '#7fb6f2',
  suspect: '#f2c46a',
  fail: '#f77f9e',
  pass: '#6fd0e6',
};

/** In a page: CSS variables of the same names, so that the page's style sheet turns every chart dark or light. */
export const pageColours = Object.fromEntries(
  Object.keys(lightColours).map((name) => [name, `var(--${name})`]),
) as unknown as ChartColours;

/** What was drawn for a page, with the colours of white paper instead of the page's variables. */
export function inLightColours(text: string): string {
  return text.replaceAll(
    /var\(--(\w+)\)/g,
    (variable, name: string) => (lightColours as unknown as Record<string, string>)[name] ?? variable,
  );
}
