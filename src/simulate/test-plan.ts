import type { Random } from '../numerics/random.ts';
import type { Refrigerant } from './line-adders.ts';
import type { System } from './system.ts';
import type { Technician } from './technicians.ts';

/** What is asked of a standing pressure test. */
export interface TestPlan {
  /** Pressure to reach [Pa], counted from the air as gauges do. */
  readonly targetPa: number;
  readonly holdS: number;
  /** Stands until the next morning. */
  readonly overnight: boolean;
  readonly design: DesignPressures;
}

/** Design pressures of a unit, as its nameplate gives them [Pa], counted from the air. */
export interface DesignPressures {
  readonly highPa: number;
  readonly lowPa: number;
}

const PSI_PA = 6894.757293168;

/** High and low side [psi], counted from the air: like nameplates, from memory, and of no unit in particular. */
const designPsi: Record<Refrigerant, readonly [number, number]> = {
  'R-410A': [550, 340],
  'R-32': [560, 350],
  'R-454B': [550, 340],
  'R-407C': [400, 250],
};

/** What holds are asked for [s], by share: common practice, no source. */
const holdShares = { '900': 0.36, '1800': 0.32, '3600': 0.24, '7200': 0.08 } as const;
const OVERNIGHT_SHARE = 0.04;

/**
 * Draws what a job asks of its pressure test.
 *
 * A system that has run is tested whole, and its low side bounds the pressure. Of a new one only the lines and the indoor
 * unit are tested, behind the valves of the outdoor unit; the indoor units of ductless systems are condensers in winter,
 * and rated alike on both sides. Who minds the nameplate stays 5 % below.
 */
export function drawTestPlan(random: Random, technician: Technician, system: System, used: boolean): TestPlan {
  const [highPsi, ownLowPsi] = designPsi[system.refrigerant];
  const lowPsi = used || system.type === 'ducted' ? ownLowPsi : highPsi;
  const habitPsi = technician.testPressurePsi * (system.refrigerant === 'R-407C' ? 0.65 : 1);
  const mindsDesign = !random.chance(technician.ignoresDesignPressure);
  const mostPsi = mindsDesign ? 0.95 * lowPsi : Number.POSITIVE_INFINITY;
  const overnight = random.chance(OVERNIGHT_SHARE);
  return {
    targetPa: Math.floor(Math.min(habitPsi, mostPsi) / 10) * 10 * PSI_PA,
    holdS: overnight ? 43_200 : Number(random.weighted(holdShares)),
    overnight,
    design: { highPa: highPsi * PSI_PA, lowPa: lowPsi * PSI_PA },
  };
}

/** How long a test truly stands [s]. */
export function drawHold(random: Random, technician: Technician, plan: TestPlan, day: number): number {
  const short = random.chance(technician.testsShort);
  const share = random.uniform();
  if (short) return 300 + 480 * share;
  if (!plan.overnight) return plan.holdS * (1.02 + 0.25 * share);
  const hour = (day % 1) * 24;
  return Math.min(24, 24 - hour + 7 + 2.5 * share) * 3600;
}
