import type { Saturated, WorkingFluid } from './working-fluid.ts';

/** Inner volumes per kilowatt [m³]. Common practice, no source. */
const volumesM3 = {
  condenser: 0.42e-3,
  liquidLine: 0.06e-3,
  evaporator: 0.3e-3,
  gas: 0.6e-3,
  accumulator: 0.2e-3,
};

/** Where the refrigerant stands. */
export interface Filling {
  readonly low: Saturated;
  readonly high: Saturated;
  /** Share of the condenser full of liquid; where there is none, the vapour's share of the mass that leaves it. */
  readonly flooded: number;
  readonly liquidK: number;
  readonly outQuality: number;
  /** Share of the evaporator that boils, and the vapour's share of the mass that enters it. */
  readonly boiling: number;
  readonly inletQuality: number;
  /** Share of the accumulator full of liquid. */
  readonly accumulated: number;
}

/** Mass in a machine of one kilowatt [kg]. */
export function heldMass(fluid: WorkingFluid, filling: Filling): number {
  const { low, high, flooded, liquidK, outQuality, boiling, inletQuality, accumulated } = filling;
  const part = (state: Saturated, liquidShare: number) =>
    state.vapourKgPerM3 + liquidShare * (state.liquidKgPerM3 - state.vapourKgPerM3);
  const liquidAt = (temperatureK: number) => fluid.curve.liquidKgPerM3(temperatureK);
  const line = outQuality > 0 ? part(high, fluid.liquidShare(high, outQuality, outQuality)) : liquidAt(liquidK);
  return (
    volumesM3.condenser *
      (flooded * liquidAt((liquidK + high.bubbleK) / 2) +
        (1 - flooded) * part(high, fluid.liquidShare(high, outQuality, 1))) +
    volumesM3.liquidLine * line +
    volumesM3.evaporator *
      (boiling * part(low, fluid.liquidShare(low, inletQuality, 1)) + (1 - boiling) * low.vapourKgPerM3) +
    volumesM3.gas * low.vapourKgPerM3 +
    volumesM3.accumulator * accumulated * low.liquidKgPerM3
  );
}
