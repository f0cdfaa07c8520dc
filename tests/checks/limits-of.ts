import type { Check, Limits, LimitSpecs } from '../../src/checks/check.ts';

/** Limits as an example sets them; the rest at their defaults. */
export function limitsOf(check: Check, set: Readonly<Record<string, number | string>> = {}): Limits<LimitSpecs> {
  return Object.fromEntries(
    Object.entries(check.limits).map(([name, spec]) => [
      name,
      { value: set[name] ?? spec.default, source: spec.source },
    ]),
  );
}
