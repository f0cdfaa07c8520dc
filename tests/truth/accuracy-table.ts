import { textTable } from '../../src/cli/text-table.ts';
import { type ToldClaim, worstLines } from './told-claim.ts';

/** What is printed of claims, cell by cell; the last column is there where it is counted what is not told. */
export function claimCells(claims: readonly ToldClaim[]): { heads: string[]; rows: string[][] } {
  const counted = claims.some(({ notTold }) => notTold !== undefined);
  const rows = claims.map(({ what, cases, measured, goal, met, notTold }) => [
    what,
    String(cases),
    measured,
    goal,
    met === undefined ? '' : met ? 'met' : 'MISSED',
    ...(counted ? [notTold === undefined ? '' : String(notTold)] : []),
  ]);
  return { heads: ['claim', 'n', 'measured', 'goal', '', ...(counted ? ['not told'] : [])], rows };
}

/** The claims, one line each. */
export function accuracyTable(claims: readonly ToldClaim[]): string {
  const { heads, rows } = claimCells(claims);
  return textTable(heads, rows);
}

/** Per claim the trials that speak most against it. */
export function worstTrials(claims: readonly ToldClaim[]): string {
  return claims
    .filter(({ worst }) => worst.length > 0)
    .map(
      (one) =>
        `\n${one.name}: ${one.against}\n${worstLines(one)
          .map((line) => `  ${line}`)
          .join('\n')}`,
    )
    .join('\n');
}
