import { dayText } from './day-text.ts';
import { type Html, html } from './html.ts';
import type { RuleCount } from './leaks-data.ts';
import type { OwnerData } from './owner-data.ts';
import { reasonText } from './rule-text.ts';
import { groupedCount } from './share-text.ts';

/** Which rule applies to how many appliances, why not to others, and how its figures are known. */
export function ruleSection({ leaks: { rules, notice, jurisdiction } }: OwnerData): Html {
  return html`<section aria-labelledby="rules">
<h2 id="rules">Which rule applies to what, and why?</h2>
<p><strong>${notice}</strong></p>
${jurisdiction !== null && html`<p>Where the record does not say whose rules apply, those of ${jurisdiction} are taken to.</p>`}
<ul class="plain-list">${rules.map(ruleEntry)}</ul>
</section>`;
}

function ruleEntry(rule: RuleCount): Html {
  return html`<li><strong>${rule.title}</strong>: ${ruleCountText(rule)}.
<span class="quiet">${rule.citation}. Figures known by: ${rule.bases.join(', ')}; holds from ${dayText(rule.from)}; records for ${rule.recordsYears} years.</span></li>`;
}

/** How many appliances a rule has a say in, and why not in the others. */
export function ruleCountText({
  applies,
  doesNot,
  unknown,
}: Pick<RuleCount, 'applies' | 'doesNot' | 'unknown'>): string {
  const told = (list: RuleCount['doesNot']) =>
    list.map(({ reason, appliances }) => `${groupedCount(appliances)} because ${reasonText[reason]}`).join(', ');
  return [
    `applies to ${groupedCount(applies)}`,
    ...(doesNot.length === 0 ? [] : [`does not to ${told(doesNot)}`]),
    ...(unknown.length === 0 ? [] : [`cannot be told of ${told(unknown)}`]),
  ].join('; ');
}
