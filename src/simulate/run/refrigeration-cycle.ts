import { bracketedRoot } from '../../numerics/bracketed-root.ts';
import type { CycleOptions, SteadyCycle } from './cycle-options.ts';
import {
  compressionWork,
  fillRatio,
  INDOOR_KG_PER_S,
  LIQUID_LINE_PA,
  type Machine,
  meteredFlow,
  ordinaryFigures,
  SUCTION_LINE_PA,
  sizedMachine,
  suctionDensity,
  surfaceTemperature,
} from './machine.ts';
import { heldMass } from './held-mass.ts';
import { airEnthalpy, enthalpyAtSurface, humidityRatio } from './moist-air.ts';
import { type Saturated, WorkingFluid } from './working-fluid.ts';

/** No superheat at the end of the coil is sought above [K]. */
const MOST_SUPERHEAT_K = 40;

/** Where a falling function crosses zero between two points, or the end that it does not cross. */
function crossing(valueAt: (x: number) => number, low: number, high: number, tolerance: number): number {
  const root = bracketedRoot(valueAt, low, high, tolerance);
  if (!Number.isNaN(root)) return root;
  return valueAt(low) <= 0 ? low : high;
}

/**
 * A vapour-compression system in steady cooling.
 *
 * For simulating what instruments on a running system show: nothing of it is a table of symptoms. Three balances are
 * met: of mass (the charge), of flow (compressor and metering device) and of heat (the indoor coil); the condenser
 * follows from them. Machines are made to show their rated figures at rating, everything else comes out.
 */
export function steadyCycle(options: CycleOptions): SteadyCycle {
  return new Cycle(options).steady();
}

/** What leaves the condenser. */
interface Condensed {
  readonly high: Saturated;
  readonly flooded: number;
  readonly outQuality: number;
  readonly outJPerKg: number;
  readonly liquidK: number;
}

class Cycle {
  readonly #options: CycleOptions;
  readonly #fluid: WorkingFluid;
  readonly #machine: Machine;
  readonly #chargeKg: number;
  readonly #atmospherePa: number;
  readonly #humidity: number;
  readonly #airKgPerS: number;
  readonly #airJPerKg: number;
  readonly #effect: number;
  readonly #indoorK: number;
  readonly #outdoorK: number;
  /** Logarithms of the pressures between which the low side is sought, and above which no head [Pa]. */
  readonly #warmestLn: number;
  readonly #highestLn: number;

  constructor(options: CycleOptions) {
    this.#options = options;
    const { refrigerant, madeFor = refrigerant, metering, rated = ordinaryFigures, airflowRatio = 1 } = options;
    this.#fluid = new WorkingFluid(refrigerant);
    this.#machine = sizedMachine(madeFor, metering, rated);
    this.#chargeKg = this.#machine.chargeKg * (options.chargeRatio ?? 1);
    this.#atmospherePa = options.atmospherePa ?? 101_325;
    this.#humidity = humidityRatio(options.indoorC, options.indoorWetBulbC, this.#atmospherePa);
    const flowRatio = (airflowRatio * this.#atmospherePa) / 101_325;
    this.#airKgPerS = INDOOR_KG_PER_S * flowRatio;
    this.#airJPerKg = airEnthalpy(options.indoorC, this.#humidity);
    // Heat transfer falls more slowly than the flow: what flows longer comes out colder.
    this.#effect = 1 - (1 - this.#machine.coilEffect) ** (flowRatio ** -0.45);
    this.#indoorK = options.indoorC + 273.15;
    this.#outdoorK = options.outdoorC + 273.15;
    this.#highestLn = Math.log(this.#fluid.heat.highestPa / (1 + (options.nonCondensableRatio ?? 0)));
    this.#warmestLn = this.#lnBubbleAt(this.#indoorK);
  }

  #lnBubbleAt(temperatureK: number): number {
    const { curve } = this.#fluid;
    return bracketedRoot((ln) => curve.bubbleK(Math.exp(ln)) - temperatureK, Math.log(1e5), this.#highestLn, 1e-8);
  }

  /** Heat that the whole coil would take in, were all of it boiling [W]. */
  #coilW(low: Saturated): number {
    const surfaceJPerKg = enthalpyAtSurface(surfaceTemperature(low), this.#humidity, this.#atmospherePa);
    return this.#airKgPerS * this.#effect * (this.#airJPerKg - surfaceJPerKg);
  }

  /** Share of the coil that boils when it ends at that superheat. */
  #boiling(low: Saturated, superheatK: number, flowKgPerS: number): number {
    if (superheatK <= 0) return 1;
    const left = 1 - superheatK / (this.#indoorK - 273.15 - surfaceTemperature(low));
    if (left <= 1e-9) return -20;
    const { superheatWPerK } = this.#machine;
    return 1 + (Math.log(left) * flowKgPerS * this.#fluid.heat.vapour) / superheatWPerK;
  }

  /** Suction at the service valve: pressure lost and heat gained on the way. */
  #suction(evaporatingPa: number, superheatK: number) {
    const { flowKgPerS, lineGainWPerK } = this.#machine;
    const { speedRatio = 1 } = this.#options;
    const suctionPa = evaporatingPa - SUCTION_LINE_PA * Math.min(2, speedRatio ** 2 * (evaporatingPa / 1e6));
    const state = this.#fluid.at(suctionPa);
    let lineK = 0;
    if (superheatK > 0) {
      const airK = (this.#indoorK + this.#outdoorK) / 2;
      const coldK = state.dewK + superheatK;
      const units = lineGainWPerK / (flowKgPerS * speedRatio * this.#fluid.heat.vapour);
      lineK = Math.max(0, airK - coldK) * (1 - Math.exp(-units)) * Math.min(1, superheatK / 2);
    }
    const atValveK = superheatK + lineK;
    return { suctionPa, state, superheatK: atValveK, kgPerM3: suctionDensity(state, atValveK) };
  }

  /** Flow that the compressor moves and what it puts in. */
  #compressed(evaporatingPa: number, superheatK: number, headPa: number) {
    const { displacementM3PerS } = this.#machine;
    const suction = this.#suction(evaporatingPa, superheatK);
    const fill = fillRatio(Math.max(1, headPa / suction.suctionPa));
    const flowKgPerS = displacementM3PerS * (this.#options.speedRatio ?? 1) * fill * suction.kgPerM3;
    const workJPerKg = compressionWork(this.#fluid, suction.suctionPa, suction.kgPerM3, headPa);
    const { liquidJPerKg, latentJPerKg } = suction.state;
    const dischargeJPerKg = liquidJPerKg + latentJPerKg + this.#fluid.heat.vapour * suction.superheatK + workJPerKg;
    return { ...suction, flowKgPerS, workJPerKg, dischargeJPerKg };
  }

  #condensed(high: Saturated, flowKgPerS: number, dischargeJPerKg: number): Condensed {
    const { outdoorWPerK, liquidWPerK } = this.#machine;
    const { outdoorAirflowRatio = 1, nonCondensableRatio = 0 } = this.#options;
    const airWPerK = outdoorWPerK * outdoorAirflowRatio;
    const effect = 1 - 0.4 ** (outdoorAirflowRatio ** -0.45 * (1 - Math.min(0.4, nonCondensableRatio)));
    const wholeW = airWPerK * effect * Math.max(0.01, high.meanK - this.#outdoorK);
    const share = (flowKgPerS * (dischargeJPerKg - high.liquidJPerKg)) / wholeW;
    if (share >= 1) {
      const outJPerKg = dischargeJPerKg - wholeW / flowKgPerS;
      const outQuality = Math.min(1, (outJPerKg - high.liquidJPerKg) / high.latentJPerKg);
      return {
        high,
        flooded: 0,
        outQuality,
        outJPerKg,
        liquidK: high.bubbleK + outQuality * (high.dewK - high.bubbleK),
      };
    }
    const flooded = 1 - share;
    const units = (liquidWPerK * outdoorAirflowRatio ** 0.5 * flooded) / (flowKgPerS * this.#fluid.heat.liquid);
    const liquidK = this.#outdoorK + (high.bubbleK - this.#outdoorK) * Math.exp(-units);
    return { high, flooded, outQuality: 0, outJPerKg: this.#fluid.liquidEnthalpy(liquidK), liquidK };
  }

  /** The evaporating pressure that balances the heat of the indoor coil. */
  #evaporatingPa(superheatK: number, high: Saturated, headPa: number): number {
    const surplusW = (ln: number) => {
      const pressurePa = Math.exp(ln);
      const low = this.#fluid.at(pressurePa);
      const { flowKgPerS, dischargeJPerKg } = this.#compressed(pressurePa, superheatK, headPa);
      const { outJPerKg } = this.#condensed(high, flowKgPerS, dischargeJPerKg);
      const neededW = flowKgPerS * (low.liquidJPerKg + low.latentJPerKg - outJPerKg);
      return this.#coilW(low) * this.#boiling(low, superheatK, flowKgPerS) - neededW;
    };
    return Math.exp(crossing(surplusW, Math.log(1e5), this.#warmestLn, 1e-10));
  }

  /** Flow that the metering device would pass, as wide as it goes, less what the compressor moves [kg/s]. */
  #spareFlow(evaporatingPa: number, superheatK: number, high: Saturated, headPa: number): number {
    const { openingM2, widestRatio, flowKgPerS: ratedKgPerS } = this.#machine;
    const { flowKgPerS, dischargeJPerKg } = this.#compressed(evaporatingPa, superheatK, headPa);
    const { outJPerKg, liquidK, outQuality } = this.#condensed(high, flowKgPerS, dischargeJPerKg);
    const free = 1 - Math.min(0.95, this.#options.restrictionRatio ?? 0);
    const outVolume = outQuality / high.vapourKgPerM3 + (1 - outQuality) / high.liquidKgPerM3;
    const lostPa = ((LIQUID_LINE_PA * (flowKgPerS / ratedKgPerS) ** 2) / free ** 2) * (outVolume * high.liquidKgPerM3);
    const beforePa = Math.max(evaporatingPa, headPa - lostPa);
    const before = this.#fluid.at(beforePa);
    const quality = Math.min(1, Math.max(0, (outJPerKg - before.liquidJPerKg) / before.latentJPerKg));
    const kgPerM3 = 1 / (quality / before.vapourKgPerM3 + (1 - quality) / before.liquidKgPerM3);
    const passes = openingM2 * widestRatio * meteredFlow(kgPerM3, beforePa - evaporatingPa, before.bubbleK - liquidK);
    return passes - flowKgPerS;
  }

  /** The low side at a condensing pressure: evaporating pressure, superheat at the end of the coil, liquid that waits. */
  #lowSide(high: Saturated, headPa: number) {
    const { metering, rated } = this.#machine;
    const lacking = (superheatK: number) =>
      -this.#spareFlow(this.#evaporatingPa(superheatK, high, headPa), superheatK, high, headPa);
    // A valve holds its superheat while it can. What a fixed orifice feeds beyond what boils collects in the accumulator:
    // the condenser drains, and the flow falls, until just enough comes.
    const heldK = metering === 'fixed' ? 0 : rated.superheatK;
    const overfed = lacking(heldK) <= 0;
    const superheatK = overfed ? heldK : crossing(lacking, heldK, MOST_SUPERHEAT_K, 1e-8);
    const accumulated = overfed && metering === 'fixed' ? 1 : 0;
    return { evaporatingPa: this.#evaporatingPa(superheatK, high, headPa), superheatK, accumulated };
  }

  #stateAt(condensingPa: number) {
    const high = this.#fluid.at(condensingPa);
    const headPa = condensingPa * (1 + (this.#options.nonCondensableRatio ?? 0));
    const { evaporatingPa, superheatK, accumulated } = this.#lowSide(high, headPa);
    const low = this.#fluid.at(evaporatingPa);
    const compressed = this.#compressed(evaporatingPa, superheatK, headPa);
    const condensed = this.#condensed(high, compressed.flowKgPerS, compressed.dischargeJPerKg);
    const inletQuality = (condensed.outJPerKg - low.liquidJPerKg) / low.latentJPerKg;
    const boiling = Math.max(0, this.#boiling(low, superheatK, compressed.flowKgPerS));
    const massKg = heldMass(this.#fluid, { low, ...condensed, boiling, inletQuality, accumulated });
    return { low, high, headPa, evaporatingPa, endSuperheatK: superheatK, compressed, condensed, boiling, massKg };
  }

  steady(): SteadyCycle {
    const { curve } = this.#fluid;
    const ln = crossing(
      (at) => this.#chargeKg - this.#stateAt(Math.exp(at)).massKg,
      this.#lnBubbleAt(this.#outdoorK - 2),
      this.#highestLn,
      1e-8,
    );
    const { low, high, headPa, evaporatingPa, endSuperheatK, compressed, condensed, boiling } = this.#stateAt(
      Math.exp(ln),
    );
    const { ratedCoolingW, meteringLocation = 'indoor', indoorC } = this.#options;
    const { flowKgPerS, workJPerKg, suctionPa, state, superheatK } = compressed;
    const coolingPerKgJ =
      low.liquidJPerKg + low.latentJPerKg - condensed.outJPerKg + this.#fluid.heat.vapour * endSuperheatK;
    const spanK = indoorC - surfaceTemperature(low);
    const superheatW = flowKgPerS * this.#fluid.heat.vapour * Math.max(0, endSuperheatK);
    const outdoors = meteringLocation === 'outdoor';
    // Past the valve: two phases on their way to the indoor coil.
    const linePa = evaporatingPa + 80_000 * (flowKgPerS / this.#machine.flowKgPerS) ** 2;
    const liquidPa = outdoors ? linePa : headPa;
    const liquidLineK = outdoors
      ? curve.bubbleK(linePa) + 0.25 * (curve.dewK(linePa) - curve.bubbleK(linePa))
      : condensed.liquidK;
    return {
      suctionPa,
      liquidPa,
      suctionLineK: state.dewK + Math.max(0, superheatK),
      liquidLineK,
      supplyC: indoorC - this.#effect * boiling * spanK - superheatW / (this.#airKgPerS * 1020) + 0.6,
      returnC: indoorC,
      compressorW: (flowKgPerS * workJPerKg * ratedCoolingW) / 1000,
      coolingW: (flowKgPerS * coolingPerKgJ * ratedCoolingW) / 1000,
      superheatK: Math.max(0, superheatK),
      subcoolingK: outdoors ? Number.NaN : curve.bubbleK(liquidPa) - liquidLineK,
      evaporatingK: low.dewK,
      condensingK: high.meanK,
      outQuality: condensed.outQuality,
    };
  }
}
