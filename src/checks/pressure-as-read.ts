import type { Facts } from '../records/tables/facts.ts';
import type { Judgement, Limit } from './check.ts';
import type { PressureHold } from './pressure-test-problem.ts';

type AsReadMessage = 'no-temperature' | 'no-temperature-large' | 'no-temperature-no-fall' | 'not-known';

/** What is said of a hold without the temperature of the pipe: never that it failed. */
export function judgeAsRead(facts: Partial<Facts>, hold: PressureHold, swing: Limit<number>): Judgement<AsReadMessage> {
  const evidence = evidenceAsRead(facts, hold);
  const { read_drop_pa: readPa, explaining_cooling_k: coolingK, end_test_pa: endPa, end_line_k } = facts;
  const isUnclamped = end_line_k === undefined;
  if (readPa === undefined || endPa === undefined || !isUnclamped)
    return { outcome: 'not-evaluated', message: 'not-known', evidence };
  if (readPa <= 0) return { outcome: 'not-evaluated', message: 'no-temperature-no-fall', evidence };
  if (coolingK === undefined) return { outcome: 'not-evaluated', message: 'not-known', evidence };
  const result = {
    value: coolingK,
    limit: swing.value,
    unit: 'K' as const,
    evidence: { ...evidence, swing_cooling_k: swing.value, swing_source: swing.source },
  };
  return coolingK > swing.value
    ? { ...result, outcome: 'suspect', message: 'no-temperature-large' }
    : { ...result, outcome: 'not-evaluated', message: 'no-temperature' };
}

/** What was read of a hold, for its findings. */
export function evidenceAsRead(facts: Partial<Facts>, { holdS, heldPa, airPa }: PressureHold) {
  const { pressure_hold_end_s: end = 0, pressure_settled_s: settled } = facts;
  return {
    hold_s: holdS,
    judged_s: settled === undefined ? holdS : end - settled,
    held_test_pa: heldPa,
    end_test_pa: facts.end_test_pa,
    atmosphere_pa: airPa,
    read_drop_pa: facts.read_drop_pa,
    explaining_cooling_k: facts.explaining_cooling_k,
  };
}
