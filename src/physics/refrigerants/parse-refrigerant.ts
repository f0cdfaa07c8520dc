import { DryholdError } from '../../errors.ts';
import { refrigerantFluids } from '../fluids/fluids.ts';
import { composeRefrigerant } from './compose-refrigerant.ts';
import type { Refrigerant } from './mixture-of.ts';
import { refrigerantDesignations, refrigerantNamed } from './refrigerant-named.ts';

const EXAMPLE = '"R-32/125 (50/50)"';

/**
 * A refrigerant as a person writes it: `R-410A`, `r410a`, `454B`, or a blend without a name by its composition in per cent
 * by mass, `R-32/125 (50/50)`.
 *
 * @throws DryholdError `unknown-refrigerant` where nothing of that name is known, `bad-usage` for a composition that says
 *   too little or does not add up
 *
 * Source: `ashrae-34` for the ways of writing.
 *
 * @example
 * parseRefrigerant('R-32/125 (50/50)').molarMassKgPerMol // 0.072585
 */
export function parseRefrigerant(text: string): Refrigerant {
  if (!text.includes('/')) return refrigerantNamed(designationOf(text, refrigerantDesignations));
  // The shares are the last group of numbers; before them a designation may have brackets of its own, as R-1234ze(E).
  const [, names = text, shares = ''] = /^(.*\S)\s*[\s(]([\d.\s%]+(?:\/[\d.\s%]+)+)\)?\s*$/.exec(text) ?? [];
  const fluids = refrigerantFluids.map((fluid) => fluid.designation);
  const components = names.split('/').map((name) => designationOf(name, fluids));
  const percents = shares.split('/').map((share) => Number(share.replaceAll('%', '').trim() || Number.NaN));
  const wrong = compositionProblem(components, percents);
  if (wrong !== undefined) throw new DryholdError('bad-usage', { problem: `"${text.trim()}": ${wrong}` });
  const designation = `R-${components.map((each) => each.slice(2)).join('/')} (${percents.join('/')})`;
  return composeRefrigerant(
    designation,
    Object.fromEntries(components.map((component, i) => [component, percents[i] / 100])),
  );
}

function compositionProblem(components: readonly string[], percents: readonly number[]): string | undefined {
  if (percents.some(Number.isNaN)) return `the shares in per cent by mass are missing, as in ${EXAMPLE}`;
  if (new Set(components).size < components.length || components.length !== percents.length) {
    return `as many different components as shares are wanted, as in ${EXAMPLE}`;
  }
  if (percents.some((percent) => percent === 0)) return 'a component without a share; leave it out';
  const total = percents.reduce((sum, percent) => sum + percent, 0);
  if (Math.abs(total - 100) <= 1e-4) return undefined;
  return `the shares add up to ${Number(total.toPrecision(9))} %, not 100 %`;
}

/** The designation that a text means, whatever its case, hyphens and brackets. */
function designationOf(text: string, designations: readonly string[]): string {
  const meant = plain(text);
  const found = designations.find((each) => plain(each) === meant);
  if (found !== undefined) return found;
  const near = designations.filter((each) => meant.length > 1 && plain(each).startsWith(meant));
  throw new DryholdError('unknown-refrigerant', { refrigerant: text.trim(), known: designations, near });
}

function plain(text: string): string {
  return text
    .toLowerCase()
    .replace(/[\s()-]/g, '')
    .replace(/^r(?=\d)/, '');
}
