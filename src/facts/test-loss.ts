import { leakFromNitrogenDrop } from '../physics/leak-from-nitrogen-drop.ts';
import type { PerOpening } from '../physics/leak-ratios.ts';
import { lossInOperation } from '../physics/loss-in-operation.ts';
import { nitrogenOut } from '../physics/nitrogen-leak-at-operating-pressure.ts';
import type { Facts } from '../records/tables/facts.ts';
import type { Job } from '../records/tables/jobs.ts';
import { atmosphereOf, bandOverVolume, type StandingCircuit, standingCircuit, volumeIn } from './standing-circuit.ts';
import { standingK } from './standing-vapour.ts';

/** A standing pressure test as a measure of leaks. */
export interface JudgedTest {
  /** Pressure of the test [Pa], absolute. */
  readonly testPa: number;
  /** Leak of nitrogen for each pascal of drop over the judged time [m³/s], at the temperature of the pipe [K]. */
  readonly leakPerDropM3PerS: number;
  readonly temperatureK: number;
}

/**
 * What a drop of this job's pressure test amounts to.
 *
 * A drop ΔP over the judged time Δt in the tested volume V is a leak of V ΔP/Δt of nitrogen, times what moles a real gas
 * has in a pascal beside an ideal one (`leakFromNitrogenDrop`, at the temperature of the pipe, 70 °F where none was
 * read: 0.9 to 1.1).
 *
 * @returns undefined where volume, pressure or times are missing, and where the pressure is not above the atmosphere
 */
export function judgedTest(facts: Partial<Facts>, job: Job | undefined): JudgedTest | undefined {
  const { held_test_pa: testPa, pressure_settled_s: fromS, pressure_hold_end_s: toS, held_line_k: lineK } = facts;
  const volume = volumeIn(facts);
  if (volume === undefined || testPa === undefined || fromS === undefined || toS === undefined) return undefined;
  if (!(toS > fromS && testPa > atmosphereOf(facts, job))) return undefined;
  const temperatureK = lineK ?? standingK;
  const leakPerDropM3PerS = leakFromNitrogenDrop({
    volumeM3: volume.volumeL / 1000,
    dropPaPerS: 1 / (toS - fromS),
    testPa,
    temperatureK,
  });
  return { testPa, leakPerDropM3PerS, temperatureK };
}

/**
 * What a leak seen as a drop [Pa] of the pressure test would lose standing [kg/year], for each sort of opening, with the
 * volume as it is given; a drop below 0 counts as 0.
 */
export function lossesByDrop(dropPa: number, test: JudgedTest, { operation }: StandingCircuit): PerOpening {
  // As many moles at the temperature at which the circuit stands.
  const leakPaM3PerS = test.leakPerDropM3PerS * Math.max(0, dropPa) * (standingK / test.temperatureK);
  return lossInOperation(leakPaM3PerS, nitrogenOut(test.testPa, operation.atmospherePa), operation);
}

/**
 * The most that the drop may be, of its interval [Pa].
 *
 * No leak lets gas in against the pressure: an interval around a drop below 0 is a temperature that was not quite that
 * of the gas, and rules out no more than the same interval around 0 would.
 */
export function mostDrop(lowPa: number, highPa: number): number {
  return Math.max(highPa, (highPa - lowPa) / 2);
}

/** The leak that the pressure test of a job shows, the smallest it could have told, and what both would lose as it stands. */
export function testLossFacts(facts: Partial<Facts>, job: Job | undefined): Partial<Facts> {
  const test = judgedTest(facts, job);
  if (test === undefined) return {};
  const { pressure_drop_pa: drop, smallest_drop_seen_pa: smallest } = facts;
  return {
    ...(drop === undefined ? {} : { test_leak_pa_m3_per_s: test.leakPerDropM3PerS * drop }),
    ...(smallest === undefined ? {} : { smallest_test_leak_seen_pa_m3_per_s: test.leakPerDropM3PerS * smallest }),
    ...standingLosses(facts, test, standingCircuit(facts, job)),
  };
}

function standingLosses(facts: Partial<Facts>, test: JudgedTest, circuit: StandingCircuit | undefined): Partial<Facts> {
  if (circuit === undefined) return {};
  const { pressure_drop_low_pa: low, pressure_drop_high_pa: high, smallest_drop_seen_pa: smallest } = facts;
  const lossOf = (dropPa: number) => bandOverVolume(lossesByDrop(dropPa, test, circuit), circuit.volume);
  const losses: Partial<Facts> = {};
  if (low !== undefined && high !== undefined) {
    losses.test_loss_low_kg_per_year = lossOf(low).lowKgPerYear;
    losses.test_loss_high_kg_per_year = lossOf(mostDrop(low, high)).highKgPerYear;
  }
  if (smallest !== undefined) {
    const told = lossOf(smallest);
    losses.smallest_test_loss_low_kg_per_year = told.lowKgPerYear;
    losses.smallest_test_loss_high_kg_per_year = told.highKgPerYear;
  }
  return losses;
}
