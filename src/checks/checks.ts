import { adderDisagrees } from './charge/adder-disagrees.ts';
import { chargeOffTarget } from './charge/charge-off-target.ts';
import { noWeighIn } from './charge/no-weigh-in.ts';
import { scaleUnsteady } from './charge/scale-unsteady.ts';
import { wrongRefrigerant } from './charge/wrong-refrigerant.ts';
import type { Check } from './check.ts';
import { gaugeAtPump } from './evacuation/gauge-at-pump.ts';
import { holdShort } from './evacuation/hold-short.ts';
import { slowPullDown } from './evacuation/slow-pull-down.ts';
import { targetNotReached } from './evacuation/target-not-reached.ts';
import { waterInSystem } from './evacuation/water-in-system.ts';
import { noPressureTest } from './pressure-test/no-pressure-test.ts';
import { pressureNotHeld } from './pressure-test/pressure-not-held.ts';
import { pressureTestBlind } from './pressure-test/pressure-test-blind.ts';
import { pressureTestShort } from './pressure-test/pressure-test-short.ts';
import { testPressureNotReached } from './pressure-test/test-pressure-not-reached.ts';
import { testPressureOverDesign } from './pressure-test/test-pressure-over-design.ts';
import { clock } from './recording/clock.ts';
import { copiedTrace } from './recording/copied-trace.ts';
import { gaps } from './recording/gaps.ts';
import { offRange } from './recording/off-range.ts';
import { stuckSensor } from './recording/stuck-sensor.ts';
import { wrongUnit } from './recording/wrong-unit.ts';
import { leaking } from './rise/leaking.ts';
import { noRiseTest } from './rise/no-rise-test.ts';
import { riseOverLimit } from './rise/rise-over-limit.ts';
import { riseTestBlind } from './rise/rise-test-blind.ts';
import { riseTestShort } from './rise/rise-test-short.ts';
import { wet } from './rise/wet.ts';
import { compressorInVacuum } from './run-test/compressor-in-vacuum.ts';
import { noRunTest } from './run-test/no-run-test.ts';
import { runPattern } from './run-test/run-pattern.ts';
import { subcoolingOff } from './run-test/subcooling-off.ts';
import { superheatOff } from './run-test/superheat-off.ts';

/** Every check, in the order of the work. A test compares this list with the folder. */
export const checks: readonly Check[] = [
  noPressureTest,
  testPressureOverDesign,
  testPressureNotReached,
  pressureTestShort,
  pressureNotHeld,
  pressureTestBlind,
  targetNotReached,
  holdShort,
  slowPullDown,
  waterInSystem,
  gaugeAtPump,
  noRiseTest,
  riseTestShort,
  riseOverLimit,
  leaking,
  wet,
  riseTestBlind,
  noWeighIn,
  chargeOffTarget,
  adderDisagrees,
  scaleUnsteady,
  wrongRefrigerant,
  noRunTest,
  superheatOff,
  subcoolingOff,
  runPattern,
  compressorInVacuum,
  gaps,
  clock,
  stuckSensor,
  wrongUnit,
  offRange,
  copiedTrace,
];

/** The check of that id, or undefined. */
export function checkNamed(id: string): Check | undefined {
  return checks.find((check) => check.id === id);
}
