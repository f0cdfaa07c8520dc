import { textTable } from '../../src/cli/text-table.ts';
import type { Claim } from './claim.ts';

/** The claims, one line each. */
export function accuracyTable(claims: readonly Claim[]): string {
  const rows = claims.map(({ what, cases, measured, goal, met }) => [
    what,
    String(cases),
    measured,
    goal,
    met === undefined ? '' : met ? 'met' : 'MISSED',
  ]);
  return textTable(['claim', 'n', 'measured', 'goal', ''], rows);
}

/** Per claim the trials that speak most against it. */
export function worstTrials(claims: readonly Claim[], most: number): string {
  return claims
    .filter(({ bad }) => bad.length > 0 && most > 0)
    .map(({ what, bad }) => {
      const lines = bad.slice(0, most).map(({ plan, says }) => {
        const odd = plan.unmodelled === undefined ? '' : `, unmodelled: ${plan.unmodelled.name}`;
        const traits = [
          plan.used ? ', used' : '',
          plan.gaugeAtPump ? ', gauge at the pump' : '',
          plan.marked ? ', marked' : '',
        ];
        return `  seed ${plan.seed} job ${plan.number} (${plan.kind}${traits.join('')}${odd}): ${says}`;
      });
      return `\n${what}: ${bad.length}\n${lines.join('\n')}`;
    })
    .join('\n');
}
