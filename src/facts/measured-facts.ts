import type { Facts } from '../records/tables/facts.ts';
import type { MeasuredMaterial } from './job-material.ts';
import { scaleFacts } from './charge/scale-facts.ts';
import { pressureTestFacts } from './pressure-test/pressure-test-facts.ts';
import { runFacts } from './run-test/run-facts.ts';
import { testedVolumeFacts } from './tested-volume.ts';
import { vacuumFacts } from './vacuum-facts.ts';

/** What the readings of a job show: its standing pressure test, its vacuum log, its weigh-in and its run. */
export function measuredFacts(material: MeasuredMaterial): Partial<Facts> {
  const { job, pressure, run } = material;
  const scale = scaleFacts(material.scale, job?.scale_step_kg);
  return {
    ...(pressure === undefined ? {} : testedVolumeFacts(material)),
    ...vacuumFacts(material),
    ...(pressure === undefined ? {} : pressureTestFacts({ job, series: pressure })),
    ...scale,
    ...runFacts(run, material, scale.scale_flow_end_s),
  };
}
