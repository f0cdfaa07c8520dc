import type { Random } from '../numerics/random.ts';
import type { Stretch } from './recorder.ts';

/** From that moment on [s], this mark; an empty mark stands for none. Sorted. */
export interface PhaseMark {
  readonly fromS: number;
  readonly mark: '' | 'pressure-test' | 'pull-down' | 'hold' | 'isolation' | 'break' | 'weigh-in' | 'run';
}

/** The marks that the source of a log sets; `wrong` ones come late, or take the rise test for the hold. */
export function phaseMarks(random: Random, stretches: readonly Stretch[], wrong: boolean): PhaseMark[] {
  const lateS = wrong && random.chance(0.5) ? random.uniform(60, 240) : 0;
  return stretches.map(({ phase, fromS }) => ({
    fromS: fromS > 0 ? fromS + lateS : 0,
    mark: phase === 'idle' ? '' : wrong && lateS === 0 && phase === 'isolation' ? 'hold' : phase,
  }));
}
