import { bracketedRoot } from '../../numerics/bracketed-root.ts';
import type { RunTestOptions } from './run-test.ts';
import { WorkingFluid } from './working-fluid.ts';

/** A system at rest, on its way to where its coldest place puts it. */
export interface Rest {
  /** Pressure throughout, absolute [Pa]. */
  at(atS: number): number;
  coldestK(atS: number): number;
  /** A pipe that is to that share outdoors [°C]. */
  lineC(atS: number, outdoorShare: number): number;
}

/** Share of the condenser's partial pressure of air that is left when it spreads over the whole system. */
const SPREAD_RATIO = 0.3;
/** Air in a running condenser is counted against its pressure there, which at rest is not known: taken at that [Pa]. */
const RUNNING_HEAD_PA = 2.6e6;

/**
 * The pressure of a system at rest: that of its refrigerant's liquid at the coldest of outdoor unit and indoor coil, and of
 * the air in it.
 */
export function restPressure(options: RunTestOptions): Rest {
  const { random, outdoorC, indoorC, refrigerant, faults } = options;
  const fluid = new WorkingFluid(refrigerant);
  const coldC = Math.min(outdoorC + random.normal(0, 0.4), indoorC + random.normal(0, 0.6));
  // Either coil still gives off what it was left with.
  const offK = random.uniform(-1.5, 2.5);
  const settlesS = random.uniform(80, 240);
  const lineOffK = random.normal(0, 3);
  const airPa = (faults?.nonCondensableRatio ?? 0) * RUNNING_HEAD_PA * SPREAD_RATIO;
  const highest = Math.log(fluid.heat.highestPa);
  const coldestK = (atS: number) => coldC + 273.15 + offK * Math.exp(-atS / settlesS);
  return {
    coldestK,
    at(atS) {
      const temperatureK = coldestK(atS);
      // The liquid is most of the mass: its bubble point, a little shifted by what the vapour has taken.
      const restK = (ln: number) => 0.9 * fluid.curve.bubbleK(Math.exp(ln)) + 0.1 * fluid.curve.dewK(Math.exp(ln));
      return Math.exp(bracketedRoot((ln) => restK(ln) - temperatureK, Math.log(5e4), highest, 1e-9)) + airPa;
    },
    lineC: (atS, outdoorShare) =>
      outdoorShare * outdoorC + (1 - outdoorShare) * indoorC + lineOffK * Math.exp(-atS / (2 * settlesS)),
  };
}
