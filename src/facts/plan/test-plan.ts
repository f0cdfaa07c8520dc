import type { TestedVolume } from '../tested-volume.ts';
import type { PlannedPressureTest } from './pressure-test-sight.ts';
import type { PlannedRiseTest } from './rise-test-sight.ts';

/** A volume that was estimated from lines and rated cooling. */
export interface EstimatedVolume extends TestedVolume {
  /** Whether the outdoor unit is in it, beside lines and indoor coil. */
  readonly hasOutdoorUnit: boolean;
}

/** Tests that are planned of one circuit. */
export interface TestPlan {
  readonly volumeL: number;
  /** The volume with its spread, where it was estimated; left out, it was given. */
  readonly estimated?: EstimatedVolume | undefined;
  /** ASHRAE 34 designation of what it is charged with. */
  readonly refrigerant: string;
  /** Of the site [Pa]. */
  readonly atmospherePa: number;
  /** Absent where only the other test is asked for. */
  readonly pressureTest?: PlannedPressureTest | undefined;
  readonly riseTest?: PlannedRiseTest | undefined;
}
