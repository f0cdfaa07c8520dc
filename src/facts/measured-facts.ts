import type { Facts } from '../records/tables/facts.ts';
import { scaleFacts } from './charge/scale-facts.ts';
import type { MeasuredMaterial } from './job-material.ts';
import { pressureTestFacts } from './pressure-test/pressure-test-facts.ts';
import { otherUnits } from './recording/other-unit.ts';
import { restUnit } from './recording/pressure-unit.ts';
import { recordedSeriesOf } from './recording/recorded-series-of.ts';
import { recordingFacts } from './recording/recording-facts.ts';
import { scannedSeries } from './recording/scanned-series.ts';
import type { UnitSuspicion } from './recording/unit-suspicion.ts';
import { unjudged } from './recording/unjudged.ts';
import { runFacts } from './run-test/run-facts.ts';
import { testedVolumeFacts } from './tested-volume.ts';
import { judgedSeries, vacuumFacts } from './vacuum-facts.ts';

/**
 * What the readings of a job show: its standing pressure test, its vacuum log, its weigh-in and its run, and how they were
 * recorded. What rests on a column that looks like another unit is left out, and said to be.
 */
export function measuredFacts(recorded: MeasuredMaterial): Partial<Facts> {
  const vacuum = judgedSeries(recorded);
  // From here on the judged series is the only one.
  const material = { ...recorded, series: vacuum === undefined ? [] : [vacuum] };
  const all = recordedSeriesOf(material, vacuum).map(scannedSeries);
  const units = otherUnits(all, material);
  const facts = unjudged(units, material, factsOf);
  const rest = restUnit(facts);
  const found: readonly UnitSuspicion[] = rest === undefined ? units : [...units, rest];
  const judged = rest === undefined ? facts : unjudged(found, material, factsOf);
  return Object.assign(judged, restOf(facts), recordingFacts(all, judged, found));
}

/** What the pressure at rest told stays, whatever the unit of its gauge. */
function restOf({ rest_pa, rest_k, rest_expected_pa, rest_deviation }: Partial<Facts>): Partial<Facts> {
  return rest_pa === undefined ? {} : { rest_pa, rest_k, rest_expected_pa, rest_deviation };
}

function factsOf(material: MeasuredMaterial): Partial<Facts> {
  const { job, pressure, run } = material;
  const scale = scaleFacts(material.scale, job?.scale_step_kg);
  // Many facts: they are put into one object, and not into a new one with each part.
  return Object.assign(
    pressure === undefined ? {} : testedVolumeFacts(material),
    vacuumFacts(material, material.series[0]),
    pressure === undefined ? {} : pressureTestFacts({ job, series: pressure }),
    scale,
    runFacts(run, material, scale.scale_flow_end_s),
  );
}
