import { Html, html } from './html.ts';
import type { Outcome } from '../checks/check.ts';

/** Outcomes from worst to best, then those that say nothing. */
export const outcomesWorstFirst: readonly Outcome[] = ['fail', 'suspect', 'pass', 'not-evaluated', 'missing'];

/** The words for each outcome. */
export const outcomeWords: Record<Outcome, string> = {
  fail: 'fail',
  suspect: 'suspect',
  pass: 'pass',
  'not-evaluated': 'not evaluated',
  missing: 'missing',
};

/** A shape each, so that colour is not needed. */
const shapes: Record<Outcome, string> = {
  fail: '<rect width="16" height="16" rx="2" fill="currentColor"/><path d="M4.5 4.5l7 7m0-7l-7 7" stroke="var(--paper)" stroke-width="2"/>',
  suspect: '<path d="M8 2l6.6 12H1.4z" fill="none" stroke="currentColor" stroke-width="2" stroke-linejoin="round"/>',
  pass: '<path d="M2 8.5l4 4 8-9" fill="none" stroke="currentColor" stroke-width="2.2"/>',
  'not-evaluated': '<path d="M2 8h12" stroke="currentColor" stroke-width="2"/>',
  missing:
    '<circle cx="8" cy="8" r="6" fill="none" stroke="currentColor" stroke-width="1.6" stroke-dasharray="2.4 2.3"/>',
};

/**
 * An outcome as a word with its shape.
 *
 * @param word another word where it is no finding that stands so
 */
export function outcomeTag(outcome: Outcome, word: string = outcomeWords[outcome]): Html {
  const shape = new Html(`<svg viewBox="0 0 16 16" aria-hidden="true">${shapes[outcome]}</svg>`);
  return html`<span class="tag ${outcome}">${shape}${word}</span>`;
}
