import type { PlannedPressureTest } from './pressure-test-sight.ts';
import type { PlannedRiseTest } from './rise-test-sight.ts';

/** Tests that are planned of one circuit. */
export interface TestPlan {
  readonly volumeL: number;
  /** ASHRAE 34 designation of what it is charged with. */
  readonly refrigerant: string;
  /** Of the site [Pa]. */
  readonly atmospherePa: number;
  /** Absent where only the other test is asked for. */
  readonly pressureTest?: PlannedPressureTest | undefined;
  readonly riseTest?: PlannedRiseTest | undefined;
}
