import type { Refrigerant } from '../line-adders.ts';
import type { Metering, RatedFigures } from './machine.ts';

/** What is wrong with a running system; each absent or at its neutral value: nothing. */
export interface CycleFaults {
  /** Mass in the system over the right one; neutral 1. */
  readonly chargeRatio?: number;
  /** Air over the indoor coil, and over the outdoor coil, over the right one; neutral 1. */
  readonly airflowRatio?: number;
  readonly outdoorAirflowRatio?: number;
  /** Share of the liquid line's passage that is blocked, 0 to 0.95. */
  readonly restrictionRatio?: number;
  /** Partial pressure of air in the condenser over the refrigerant's. */
  readonly nonCondensableRatio?: number;
}

export interface CycleOptions extends CycleFaults {
  /** What runs in it. */
  readonly refrigerant: Refrigerant;
  /** What the machine is made for; absent: the same. */
  readonly madeFor?: Refrigerant;
  readonly ratedCoolingW: number;
  readonly metering: Metering;
  readonly rated?: RatedFigures;
  /** Where it meters; outdoors, the liquid line carries what has passed the valve. Absent: indoors. */
  readonly meteringLocation?: 'indoor' | 'outdoor';
  readonly outdoorC: number;
  readonly indoorC: number;
  readonly indoorWetBulbC: number;
  /** Speed of the compressor over the rated one; absent: 1. */
  readonly speedRatio?: number;
  readonly atmospherePa?: number;
}

/** A system running steadily; pressures and lines at the service valves. */
export interface SteadyCycle {
  readonly suctionPa: number;
  readonly liquidPa: number;
  readonly suctionLineK: number;
  readonly liquidLineK: number;
  readonly supplyC: number;
  readonly returnC: number;
  readonly compressorW: number;
  readonly coolingW: number;
  /** From the suction pressure's dew point; at 0 where liquid comes back. */
  readonly superheatK: number;
  /** From the bubble point of the whole liquid pressure; NaN where the liquid line carries two phases by design. */
  readonly subcoolingK: number;
  /** Of the refrigerant alone [K]. */
  readonly evaporatingK: number;
  readonly condensingK: number;
  /** Vapour in the mass that leaves the condenser. */
  readonly outQuality: number;
}
