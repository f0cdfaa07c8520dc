import { type FastSaturation, fastSaturationOf } from '../../physics/index.ts';
import type { Refrigerant } from '../line-adders.ts';

interface Heat {
  /** Mean specific heat of liquid and of vapour near saturation [J/(kg·K)], isentropic exponent: rounded, from memory. */
  readonly liquid: number;
  readonly vapour: number;
  readonly exponent: number;
  /** No pressure above is looked at: the tables end near the critical point [Pa]. */
  readonly highestPa: number;
}

const heats: Record<Refrigerant, Heat> = {
  'R-410A': { liquid: 1680, vapour: 1150, exponent: 1.17, highestPa: 4.7e6 },
  'R-32': { liquid: 1930, vapour: 1350, exponent: 1.22, highestPa: 5.5e6 },
  'R-454B': { liquid: 1780, vapour: 1200, exponent: 1.18, highestPa: 4.9e6 },
  'R-407C': { liquid: 1580, vapour: 970, exponent: 1.15, highestPa: 4.2e6 },
};

/** What the cycle needs to know of a saturated refrigerant at a pressure. */
export interface Saturated {
  readonly dewK: number;
  readonly bubbleK: number;
  readonly meanK: number;
  readonly liquidKgPerM3: number;
  readonly vapourKgPerM3: number;
  readonly latentJPerKg: number;
  /** Enthalpy of the boiling liquid, counted from liquid at 0 °C [J/kg]. */
  readonly liquidJPerKg: number;
}

/** A refrigerant as it works in the simulated cycle: saturation by its table, the rest roughly. */
export class WorkingFluid {
  readonly heat: Heat;
  readonly curve: FastSaturation;

  constructor(designation: Refrigerant) {
    this.heat = heats[designation];
    this.curve = fastSaturationOf(designation);
  }

  #meanK(pressurePa: number): number {
    return (this.curve.dewK(pressurePa) + this.curve.bubbleK(pressurePa)) / 2;
  }

  /** Latent heat by the slope of the curve (Clausius and Clapeyron). */
  at(pressurePa: number): Saturated {
    const dewK = this.curve.dewK(pressurePa);
    const bubbleK = this.curve.bubbleK(pressurePa);
    const meanK = (dewK + bubbleK) / 2;
    const liquidKgPerM3 = this.curve.liquidKgPerM3(bubbleK);
    const vapourKgPerM3 = this.curve.vapourKgPerM3(dewK);
    const paPerK = (pressurePa * 0.002) / (this.#meanK(pressurePa * 1.001) - this.#meanK(pressurePa * 0.999));
    return {
      dewK,
      bubbleK,
      meanK,
      liquidKgPerM3,
      vapourKgPerM3,
      latentJPerKg: meanK * (1 / vapourKgPerM3 - 1 / liquidKgPerM3) * paPerK,
      liquidJPerKg: this.liquidEnthalpy(bubbleK),
    };
  }

  /** Enthalpy of liquid, counted from 0 °C [J/kg]. */
  liquidEnthalpy(temperatureK: number): number {
    return this.heat.liquid * (temperatureK - 273.15);
  }

  /** Share of the volume that is liquid where the vapour's share of the mass runs from one value to another (Zivi, from memory). */
  liquidShare({ vapourKgPerM3, liquidKgPerM3 }: Saturated, fromQuality: number, toQuality: number): number {
    const c = (vapourKgPerM3 / liquidKgPerM3) ** (2 / 3);
    const a = 1 - c;
    const from = Math.min(1, Math.max(0, fromQuality));
    const to = Math.min(1, Math.max(0, toQuality));
    if (to - from < 1e-4) return (c * (1 - from)) / (c + a * from);
    const integral = (x: number) => c * (Math.log(c + a * x) / (a * a) - x / a);
    return (integral(to) - integral(from)) / (to - from);
  }
}
