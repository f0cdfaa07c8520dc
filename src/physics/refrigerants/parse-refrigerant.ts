import { DryholdError } from '../../errors.ts';
import { composeRefrigerant, type Refrigerant } from './compose-refrigerant.ts';
import { refrigerantDesignations, refrigerantNamed } from './refrigerant-named.ts';

/**
 * A refrigerant as a person writes it: `R-410A`, `r410a`, `454B`, or a blend without a name by its composition in per cent
 * by mass, `R-32/125 (50/50)`.
 *
 * @throws DryholdError `unknown-refrigerant` where nothing of that name is known, `out-of-range` for a composition that does
 *   not add up
 *
 * Source: `ashrae-34` for the ways of writing.
 *
 * @example
 * parseRefrigerant('R-32/125 (50/50)').molarMassKgPerMol // 0.072585
 */
export function parseRefrigerant(text: string): Refrigerant {
  const composition = /^([^()]+\/[^()\s]+)\s*\(?\s*([\d.]+(?:\s*\/\s*[\d.]+)+)\s*\)?$/.exec(text.trim());
  if (composition === null) return refrigerantNamed(designationOf(text));
  const [, names, shares] = composition;
  const components = names.split('/').map((name) => designationOf(name));
  const percents = shares.split('/').map(Number);
  const designation = `R-${components.map((each) => each.slice(2)).join('/')} (${percents.join('/')})`;
  if (new Set(components).size < components.length || components.length !== percents.length) {
    throw new DryholdError('bad-usage', {
      problem: `"${text}": as many different components as shares are wanted, such as "R-32/125 (50/50)"`,
    });
  }
  return composeRefrigerant(
    designation,
    Object.fromEntries(components.map((component, i) => [component, percents[i] / 100])),
  );
}

/** The designation that a text means, whatever its case and hyphens. */
function designationOf(text: string): string {
  const meant = plain(text);
  const found = refrigerantDesignations.find((each) => plain(each) === meant);
  if (found !== undefined) return found;
  throw new DryholdError('unknown-refrigerant', {
    refrigerant: text.trim(),
    known: refrigerantDesignations.join(', '),
  });
}

function plain(text: string): string {
  return text
    .toLowerCase()
    .replace(/[^a-z0-9]/g, '')
    .replace(/^r(?=\d)/, '');
}
