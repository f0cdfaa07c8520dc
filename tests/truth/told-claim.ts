import type { Claim, TrialName } from './claim.ts';

/** A claim as it is printed, without its cases: it can be handed from one process to another. */
export interface ToldClaim
  extends Pick<Claim, 'what' | 'cases' | 'measured' | 'goal' | 'met' | 'mayBeChance' | 'notTold'> {
  /** What it claims without the claims above it: one that begins with "…" has the head that it continues before it. */
  readonly name: string;
  /** How many cases speak against it, and the worst of them: which it is, and what was true and found of it. */
  readonly against: number;
  readonly worst: readonly { readonly which: string; readonly says: string }[];
}

/**
 * Claims as they are printed.
 *
 * @param most how many of the cases against each are kept
 */
export function toldClaims(claims: readonly Claim[], most: number): ToldClaim[] {
  let head = '';
  return claims.map(({ what, cases, measured, goal, met, mayBeChance, notTold, bad }) => {
    const continues = what.startsWith('…');
    if (!continues) head = what;
    return {
      what,
      name: continues ? `${head} ${what}` : what,
      cases,
      measured,
      goal,
      met,
      ...(mayBeChance === undefined ? {} : { mayBeChance }),
      ...(notTold === undefined ? {} : { notTold }),
      against: bad.length,
      worst: bad
        .slice(0, most)
        .map(({ plan, says }) => ({ which: whichTrial(plan, what), says: says === what ? '' : says })),
    };
  });
}

function whichTrial({ seed, number, kind, used, gaugeAtPump, marked, unmodelled }: TrialName, what: string): string {
  const traits = [
    ...(what.startsWith(kind) ? [] : [kind]),
    ...(used ? ['used'] : []),
    ...(gaugeAtPump ? ['gauge at the pump'] : []),
    ...(marked ? ['marked'] : []),
    ...(unmodelled === undefined ? [] : [`unmodelled: ${unmodelled.name}`]),
  ];
  return `seed ${seed} no. ${number}${traits.length === 0 ? '' : ` (${traits.join(', ')})`}`;
}

/** The worst cases, a line each; those of which nothing is said but which they are stand in one. */
export function worstLines({ worst }: Pick<ToldClaim, 'worst'>): string[] {
  const bare = worst.filter(({ says }) => says === '').map(({ which }) => which);
  const told = worst.filter(({ says }) => says !== '').map(({ which, says }) => `${which}: ${says}`);
  return bare.length === 0 ? told : [...told, bare.join('; ')];
}
