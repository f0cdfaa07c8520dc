import { bracketedRoot } from '../../numerics/bracketed-root.ts';
import type { Refrigerant } from '../line-adders.ts';
import { heldMass } from './held-mass.ts';
import { airEnthalpy, enthalpyAtSurface, humidityRatio } from './moist-air.ts';
import { type Saturated, WorkingFluid } from './working-fluid.ts';

export type Metering = 'fixed' | 'txv' | 'eev';

/** What a machine shows at the right charge in rating conditions: 26.7 °C dry and 19.4 °C wet indoors, 35 °C outdoors. */
export interface RatedFigures {
  /** Condensing over outdoor temperature [K]. */
  readonly approachK: number;
  /** At the end of the condenser [K]. */
  readonly subcoolingK: number;
  /** At the end of the evaporator [K]; what a valve holds there. */
  readonly superheatK: number;
  /** Dew temperature at the end of the evaporator [°C]. */
  readonly evaporatingC: number;
}

export const ordinaryFigures: RatedFigures = { approachK: 11, subcoolingK: 6, superheatK: 5.3, evaporatingC: 8 };

/** Air over the indoor coil per kilowatt of rated capacity [kg/s], some 400 cfm per ton. Common practice, no source. */
export const INDOOR_KG_PER_S = 0.0623;
/** Rise of the outdoor air over the approach. Common practice, no source. */
const OUTDOOR_EFFECT = 0.6;
/** Conductance of the whole indoor coil, were it all superheating, over the heat capacity of the rated flow. Fitted to the table of target superheat. */
const SUPERHEAT_UNITS = 1.75;
/** Pressure lost in the liquid line and in the suction line at rated flow [Pa]. */
export const LIQUID_LINE_PA = 25_000;
export const SUCTION_LINE_PA = 12_000;
/** A machine sized for one kilowatt, all else in proportion. */
export interface Machine {
  readonly rated: RatedFigures;
  readonly metering: Metering;
  readonly displacementM3PerS: number;
  readonly flowKgPerS: number;
  /** Effect of the indoor coil on its air, and units of heat transfer of its superheating part [W/K]. */
  readonly coilEffect: number;
  readonly superheatWPerK: number;
  /** Heat that the outdoor air takes per kelvin, and how well the condenser gives it; conductance where liquid stands [W/K]. */
  readonly outdoorWPerK: number;
  readonly liquidWPerK: number;
  readonly lineGainWPerK: number;
  /** Free area of the metering device at rating [m²], times its discharge coefficient; a valve opens so many times as far. */
  readonly openingM2: number;
  readonly widestRatio: number;
  readonly chargeKg: number;
}

/** Volume drawn in over displacement. A scroll's, roughly. */
export function fillRatio(compression: number): number {
  return Math.max(0.3, 1 - 0.025 * (compression - 1));
}

/** Work that the compressor puts in [J/kg]. */
export function compressionWork(fluid: WorkingFluid, suctionPa: number, vapourKgPerM3: number, dischargePa: number) {
  const share = (fluid.heat.exponent - 1) / fluid.heat.exponent;
  const ratio = Math.max(1.05, dischargePa / suctionPa);
  return ((suctionPa / vapourKgPerM3) * (ratio ** share - 1)) / share / 0.7;
}

/** Density of vapour so far above its dew point [kg/m³], roughly. */
export function suctionDensity(state: Saturated, superheatK: number): number {
  return (state.vapourKgPerM3 * state.dewK) / (state.dewK + 1.3 * superheatK);
}

/** Flow through a metering device of 1 m², discharge coefficient included, from what stands before it [kg/s]. */
export function meteredFlow(kgPerM3: number, dropPa: number, subcoolingK: number): number {
  return Math.sqrt(2 * kgPerM3 * Math.max(0, dropPa)) * (1 + 0.012 * Math.max(0, subcoolingK));
}

/** Sizes a machine for a refrigerant so that it shows its rated figures at rating. */
export function sizedMachine(designation: Refrigerant, metering: Metering, rated: RatedFigures): Machine {
  const fluid = new WorkingFluid(designation);
  const { curve, heat } = fluid;
  const evaporatingK = rated.evaporatingC + 273.15;
  const condensingK = 35 + rated.approachK + 273.15;
  const lnPaOf = (temperatureAt: (pressurePa: number) => number, temperatureK: number) =>
    bracketedRoot((ln) => temperatureAt(Math.exp(ln)) - temperatureK, Math.log(2e5), Math.log(heat.highestPa));
  const evaporatingPa = Math.exp(lnPaOf((pa) => curve.dewK(pa), evaporatingK));
  const condensingPa = Math.exp(lnPaOf((pa) => (curve.dewK(pa) + curve.bubbleK(pa)) / 2, condensingK));
  const low = fluid.at(evaporatingPa);
  const high = fluid.at(condensingPa);
  const liquidK = high.bubbleK - rated.subcoolingK;
  const outJPerKg = fluid.liquidEnthalpy(liquidK);
  const vapourJPerKg = low.liquidJPerKg + low.latentJPerKg;
  const flowKgPerS = 1000 / (vapourJPerKg + heat.vapour * rated.superheatK - outJPerKg);

  const ratio = humidityRatio(26.7, 19.4, 101_325);
  const surfaceC = surfaceTemperature(low);
  const superheatShare = -Math.log(1 - rated.superheatK / (26.7 - surfaceC)) / SUPERHEAT_UNITS;
  const availableW = INDOOR_KG_PER_S * (airEnthalpy(26.7, ratio) - enthalpyAtSurface(surfaceC, ratio, 101_325));
  const boilingW = flowKgPerS * (vapourJPerKg - outJPerKg);

  const suctionPa = evaporatingPa - SUCTION_LINE_PA;
  const suctionK = 1.5 + rated.superheatK;
  const suctionKgPerM3 = suctionDensity(fluid.at(suctionPa), suctionK);
  const workJPerKg = compressionWork(fluid, suctionPa, suctionKgPerM3, condensingPa);
  const dischargeJPerKg = vapourJPerKg + heat.vapour * suctionK + workJPerKg;
  const condensingW = flowKgPerS * (dischargeJPerKg - high.liquidJPerKg);
  const outdoorUnits = -Math.log(1 - OUTDOOR_EFFECT);
  // A third of the conductance of the same face where it condenses.
  const liquidPerW = outdoorUnits / 3;
  const leftRatio = (liquidK - 308.15) / (high.bubbleK - 308.15);
  // The face is shared so that both parts do their work: condensing/(1 − flooded) sizes the air, the air sizes the liquid part.
  const flooded = bracketedRoot(
    (share) => {
      const airWPerK = condensingW / ((1 - share) * OUTDOOR_EFFECT * rated.approachK);
      return Math.exp((-liquidPerW * airWPerK * share) / (flowKgPerS * heat.liquid)) - leftRatio;
    },
    0,
    0.9,
  );
  const outdoorWPerK = condensingW / ((1 - flooded) * OUTDOOR_EFFECT * rated.approachK);
  const dropPa = condensingPa - LIQUID_LINE_PA - evaporatingPa;
  const beforeK = curve.bubbleK(condensingPa - LIQUID_LINE_PA) - liquidK;
  const inletQuality = (outJPerKg - low.liquidJPerKg) / low.latentJPerKg;
  return {
    rated,
    metering,
    displacementM3PerS: flowKgPerS / (suctionKgPerM3 * fillRatio(condensingPa / suctionPa)),
    flowKgPerS,
    coilEffect: boilingW / ((1 - superheatShare) * availableW),
    superheatWPerK: SUPERHEAT_UNITS * flowKgPerS * heat.vapour,
    outdoorWPerK,
    liquidWPerK: liquidPerW * outdoorWPerK,
    lineGainWPerK: 0.087 * flowKgPerS * heat.vapour,
    openingM2: flowKgPerS / meteredFlow(high.liquidKgPerM3, dropPa, beforeK),
    widestRatio: metering === 'fixed' ? 1 : metering === 'txv' ? 1.8 : 2.2,
    chargeKg: heldMass(fluid, {
      low,
      high,
      flooded,
      liquidK,
      outQuality: 0,
      boiling: 1 - superheatShare,
      inletQuality,
      accumulated: 0,
    }),
  };
}

/** Temperature that the air of the coil sees [°C]: blends boil below their dew point for most of its length. */
export function surfaceTemperature({ dewK, bubbleK }: Saturated): number {
  return dewK - 0.4 * (dewK - bubbleK) - 273.15;
}
