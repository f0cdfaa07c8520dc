import type { LossBand } from '../../physics/loss-in-operation.ts';
import { standingTestSight } from '../pressure-test/standing-test-sight.ts';
import { bandOverVolume, type StandingCircuit } from '../standing-circuit.ts';
import { judgedTest, lossesByDrop } from '../test-loss.ts';

/** A standing pressure test with nitrogen that is planned. */
export interface PlannedPressureTest {
  /** Pressure of the test [Pa], absolute, above the atmosphere. */
  readonly testPa: number;
  /** Step of the gauge [Pa], above 0. */
  readonly stepPa: number;
  /** Time between two readings [s]. */
  readonly intervalS: number;
  /** Temperature of the gas [K]. */
  readonly temperatureK: number;
  /** How well the change of the gas temperature over the test is known [K]: 95 %, either way; 0 or more. */
  readonly temperatureUncertaintyK: number;
}

/** The smallest leak that a pressure test of a length sees. */
export interface PlannedPressureRow extends LossBand {
  /** From filling on. */
  readonly durationS: number;
  /** Drop over what is judged of it, the settling after filling left out, corrected for temperature [Pa]. */
  readonly dropPa: number;
}

/**
 * What a planned pressure test could see, as the facts of its log would say it afterwards.
 *
 * @returns the smallest leak by the length of the test [s], no more for a longer one
 */
export function pressureTestSight(
  test: PlannedPressureTest,
  circuit: StandingCircuit,
): (durationS: number) => PlannedPressureRow {
  const { volume, operation } = circuit;
  return (durationS) => {
    const { smallestDropPa, judgedS } = standingTestSight({
      pressurePa: test.testPa,
      durationS,
      intervalS: test.intervalS,
      stepPa: test.stepPa,
      temperatureK: test.temperatureK,
      temperatureUncertaintyK: test.temperatureUncertaintyK,
    });
    const judged = judgedTest(
      {
        held_test_pa: test.testPa,
        held_line_k: test.temperatureK,
        pressure_settled_s: 0,
        pressure_hold_end_s: judgedS,
        atmosphere_pa: operation.atmospherePa,
        tested_volume_l: volume.volumeL,
        tested_volume_low_l: volume.lowL,
        tested_volume_high_l: volume.highL,
        tested_volume_basis: volume.basis,
      },
      undefined,
    );
    if (judged === undefined) throw new Error('a planned test has a volume, a length and a pressure above the air');
    const losses = lossesByDrop(smallestDropPa, judged, circuit);
    return { durationS, dropPa: smallestDropPa, ...bandOverVolume(losses, volume) };
  };
}
