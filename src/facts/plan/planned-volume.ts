import { type TestedVolume, testedVolume } from '../tested-volume.ts';
import type { TestPlan } from './test-plan.ts';

/** The volume of a plan with its spread: as it was estimated, or as a recorded one has it; undefined unless it is above 0. */
export function plannedVolume({ volumeL, estimated }: TestPlan): TestedVolume | undefined {
  return estimated ?? testedVolume({ job: { tested_volume_l: volumeL } });
}
