import { componentsOf } from './gwp.ts';
import { ozoneDepletingRefrigerants } from './ozone-depleting.ts';
import { blends } from '../physics/refrigerants/blends.ts';

const singles = [
  'R-22',
  'R-32',
  'R-125',
  'R-134a',
  'R-143a',
  'R-152a',
  'R-1234yf',
  'R-1234ze(E)',
  'R-290',
  'R-600a',
  'R-744',
];

const known: ReadonlyMap<string, string> = new Map(
  [...singles, ...Object.keys(blends), 'R-466A', ...ozoneDepletingRefrigerants].map((name) => [plain(name), name]),
);

const named: ReadonlySet<string> = new Set(known.values());

/**
 * The designation under which a refrigerant is accounted; undefined where what is written names none that is known here, so that
 * nothing of it is guessed.
 *
 * @example accountedRefrigerant('r410a') // 'R-410A'
 */
export function accountedRefrigerant(written: string | null | undefined): string | undefined {
  if (written === null || written === undefined) return undefined;
  // Most are written as they are named.
  return named.has(written) ? written : known.get(plain(written));
}

/** Whether a refrigerant is or holds a hydrofluorocarbon, by its components. */
export function holdsHydrofluorocarbon(refrigerant: string): boolean {
  return Object.keys(componentsOf(refrigerant) ?? {}).some((name) => hydrofluorocarbons.has(name));
}

const hydrofluorocarbons: ReadonlySet<string> = new Set(['R-32', 'R-125', 'R-134a', 'R-143a', 'R-152a']);

function plain(name: string): string {
  return name
    .toLowerCase()
    .replaceAll(/[\s()-]/g, '')
    .replace(/^r(?=\d)/, '');
}
