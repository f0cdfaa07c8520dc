import type { VacuumMaterial } from '../../src/facts/job-material.ts';
import { median } from '../../src/numerics/median.ts';
import { gaugeRow } from '../../src/simulate/vacuum-gauges.ts';
import type { TrialRun } from './run-trial.ts';
import type { TrialPlan } from './trial-plan.ts';

/** What a shop would have on record of a trial, and its log. */
export function trialMaterial(plan: TrialPlan, { readings, marks }: TrialRun): VacuumMaterial {
  const { gauge, train, protocol, circuit } = plan;
  const volumeL = Math.round((circuit.nearM3 + circuit.farM3) * 1e5) / 100;
  return {
    job: {
      work_type: plan.used ? 'repair' : 'install',
      altitude_m: circuit.altitudeM,
      charge_basis: plan.used ? 'empty' : 'pre-charged',
      ...(plan.volumeRecorded ? { tested_volume_l: volumeL } : {}),
      ...(plan.recorded
        ? {
            vacuum_target_pa: Math.round(protocol.targetPa * 100) / 100,
            rise_test_s: protocol.riseS,
            rise_limit_pa: Math.round(protocol.limitPa * 100) / 100,
            rise_limit_kind: protocol.limitKind,
          }
        : {}),
      pump_speed_l_per_s: train.speedM3PerS * 1000,
      hose_bore_mm: train.hoseBoreM * 1000,
      hose_length_m: train.hoseLengthM,
      cores_removed: !train.coresIn,
      gauge_id: gauge.gaugeId,
      gauge_position: plan.gaugeAtPump ? 'pump' : 'system',
      gauge_accuracy_ratio: gauge.accuracyRatio,
      gauge_step_pa: gauge.stepPa,
    },
    gauge: gaugeRow(gauge),
    series: [{ gauge: gauge.gaugeId, elapsedS: readings.elapsedS, vacuumPa: readings.vacuumPa }],
    marks,
    ...(plan.clamp ? { line: lineTemperature(readings.lineC) } : {}),
  };
}

/** Mean, and the lowest of medians of five: spikes are left out. */
function lineTemperature(lineC: Float64Array): { meanK: number; lowK: number } {
  let sum = 0;
  let low = Number.POSITIVE_INFINITY;
  for (let at = 0; at < lineC.length; at += 1) sum += lineC[at];
  for (let at = 0; at + 5 <= lineC.length; at += 5) low = Math.min(low, median(lineC.subarray(at, at + 5)));
  return { meanK: 273.15 + sum / lineC.length, lowK: 273.15 + low };
}
