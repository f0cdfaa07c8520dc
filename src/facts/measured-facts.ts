import type { Facts } from '../records/tables/facts.ts';
import type { MeasuredMaterial } from './job-material.ts';
import { pressureTestFacts } from './pressure-test/pressure-test-facts.ts';
import { testedVolumeFacts } from './tested-volume.ts';
import { vacuumFacts } from './vacuum-facts.ts';

/** What the readings of a job show: its standing pressure test and its vacuum log. */
export function measuredFacts(material: MeasuredMaterial): Partial<Facts> {
  const { job, pressure } = material;
  const vacuum = vacuumFacts(material);
  if (pressure === undefined) return vacuum;
  return { ...testedVolumeFacts(material), ...vacuum, ...pressureTestFacts({ job, series: pressure }) };
}
