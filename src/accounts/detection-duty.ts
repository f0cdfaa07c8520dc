import { type Obligation, obligation } from './obligation.ts';
import type { Ruled } from './rules/rule-set.ts';

/** That there is a leak detection system: there is, there is none, or the record does not say. */
export function detectionDuty(
  duty: {
    readonly systemId: string;
    readonly ruleId: string;
    readonly told: Ruled<unknown>;
    readonly dueDay: number | null;
    readonly sinceDay: number | null;
    readonly hasDetection: boolean | null;
  },
  today: number,
): Obligation {
  const { systemId, ruleId, told, dueDay, sinceDay, hasDetection } = duty;
  return obligation(
    {
      kind: 'leak-detection',
      systemId,
      ruleId,
      basis: told.basis,
      dueDay,
      // Since when is not on record; that it is there is.
      doneDay: hasDetection === true ? Math.min(today, dueDay ?? today) : null,
      sinceDay,
      ...(hasDetection === null
        ? { lacks: 'whether it has leak detection' }
        : dueDay === null
          ? { lacks: 'the day of installation' }
          : {}),
    },
    today,
  );
}
