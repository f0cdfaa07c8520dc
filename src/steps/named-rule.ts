import type { RuleBasis, RuleSet } from '../accounts/rules/rule-set.ts';
import type { NamedRule } from '../pages/leaks-data.ts';
import { references } from '../references.ts';

const surest: readonly RuleBasis[] = ['rule text', 'second hand', 'from memory'];

/** A rule set as an output names it, with how its figures are known. */
export function namedRule(rule: RuleSet): NamedRule {
  const found = new Set(
    Object.values(rule).flatMap((value: unknown) =>
      typeof value === 'object' && value !== null && 'basis' in value ? [value.basis as RuleBasis] : [],
    ),
  );
  return {
    id: rule.id,
    title: rule.title,
    citation: references[rule.reference].citation,
    from: rule.from.value,
    recordsYears: rule.recordsYears.value,
    bases: surest.filter((basis) => found.has(basis)),
  };
}
