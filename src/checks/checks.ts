import { chargeOffTarget } from './charge/charge-off-target.ts';
import type { Check } from './check.ts';
import { holdShort } from './evacuation/hold-short.ts';
import { targetNotReached } from './evacuation/target-not-reached.ts';
import { noRiseTest } from './rise/no-rise-test.ts';
import { riseOverLimit } from './rise/rise-over-limit.ts';

/** Every check, in the order of the work. A test compares this list with the folder. */
export const checks: readonly Check[] = [targetNotReached, holdShort, noRiseTest, riseOverLimit, chargeOffTarget];

/** The check of that id, or undefined. */
export function checkNamed(id: string): Check | undefined {
  return checks.find((check) => check.id === id);
}
