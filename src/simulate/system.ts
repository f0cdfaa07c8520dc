import type { Random } from '../numerics/random.ts';
import { copperTube } from '../physics/index.ts';
import { type LineSize, makerAdderKgPerM, type Refrigerant } from './line-adders.ts';

export type SystemType = 'ductless' | 'ducted' | 'multi';

/** One line set of a system. */
export interface SystemLine {
  readonly size: LineSize;
  readonly suctionMm: number;
  /** As the record has it, and the technician reckons with [m]. */
  readonly lengthM: number;
  /** As it truly is [m]; absent: as recorded. */
  readonly trueLengthM?: number;
  /** Length that the factory charge covers [m]. */
  readonly coveredM: number;
  readonly adderKgPerM: number;
}

/** A system that a job works on. */
export interface System {
  readonly type: SystemType;
  readonly refrigerant: Refrigerant;
  readonly ratedCoolingW: number;
  readonly metering: 'eev' | 'txv' | 'fixed';
  readonly compressor: 'variable' | 'staged' | 'single';
  readonly factoryChargeKg: number;
  readonly lines: readonly SystemLine[];
  /** Inner volume that the vacuum sees, and of the whole circuit [m³]. */
  readonly testedM3: number;
  readonly circuitM3: number;
}

const tenth = (value: number) => Math.round(value * 10) / 10;
const hundredth = (value: number) => Math.round(value * 100) / 100;

/** Factory charge by rated cooling and refrigerant: common practice, no source. */
const chargeKgPerKw: Record<Refrigerant, number> = { 'R-410A': 0.32, 'R-32': 0.25, 'R-454B': 0.29, 'R-407C': 0.34 };

interface Size {
  readonly kw: readonly number[];
  readonly sizes: readonly (readonly [LineSize, number])[];
  readonly coveredM: readonly number[];
  readonly lengthM: readonly [number, number];
  readonly zones: readonly [number, number];
}

/** What each type comes as: common practice, no source. */
const sizes: Record<SystemType, Size> = {
  ductless: {
    kw: [2.6, 3.5, 5, 7],
    sizes: [
      [6.35, 9.52],
      [6.35, 12.7],
      [6.35, 15.88],
    ],
    coveredM: [5, 7.5, 7.5, 15],
    lengthM: [3, 18],
    zones: [1, 1],
  },
  ducted: {
    kw: [7, 8.8, 10.5, 14, 17.5],
    sizes: [
      [9.52, 19.05],
      [9.52, 22.22],
      [9.52, 15.88],
    ],
    coveredM: [4.6, 4.6, 7.6],
    lengthM: [5, 24],
    zones: [1, 1],
  },
  multi: {
    kw: [5, 7, 9, 10.5],
    sizes: [
      [6.35, 9.52],
      [6.35, 12.7],
    ],
    coveredM: [7.5],
    lengthM: [4, 20],
    zones: [2, 4],
  },
};

/** Draws a system; `used` ones have run before and may hold older refrigerants. */
export function drawSystem(random: Random, type: SystemType, used: boolean): System {
  const size = sizes[type];
  const refrigerant = random.weighted<Refrigerant>(
    used
      ? { 'R-410A': 0.75, 'R-407C': 0.15, 'R-32': 0.1 }
      : type === 'ducted'
        ? { 'R-410A': 0.4, 'R-454B': 0.6 }
        : { 'R-410A': 0.4, 'R-32': 0.6 },
  );
  const kw = random.choice(size.kw);
  const coveredM = random.choice(size.coveredM);
  const zones = random.integer(...size.zones);
  const lines = Array.from({ length: zones }, (): SystemLine => {
    const [od, suctionMm] = random.choice(size.sizes);
    return {
      size: od,
      suctionMm,
      lengthM: tenth(random.uniform(...size.lengthM)),
      coveredM,
      adderKgPerM: makerAdderKgPerM(refrigerant, od),
    };
  });
  const lineM3 = lines.reduce(
    (sum, line) => sum + line.lengthM * (volumePerM(line.size) + volumePerM(line.suctionMm)),
    0,
  );
  const indoorM3 = (0.25e-3 * kw + 0.2e-3 * zones) * random.uniform(0.8, 1.2);
  const outdoorM3 = (0.6e-3 * kw + 0.8e-3) * random.uniform(0.8, 1.2);
  return {
    type,
    refrigerant,
    ratedCoolingW: kw * 1000,
    metering: type === 'ducted' ? (random.chance(used ? 0.4 : 0.1) ? 'fixed' : 'txv') : 'eev',
    compressor: type === 'ducted' ? random.choice(['single', 'staged'] as const) : 'variable',
    factoryChargeKg: hundredth(chargeKgPerKw[refrigerant] * kw * random.uniform(0.85, 1.15) + 0.1),
    lines,
    testedM3: lineM3 + indoorM3 + (used ? outdoorM3 : 0),
    circuitM3: lineM3 + indoorM3 + outdoorM3,
  };
}

function volumePerM(outerMm: number): number {
  return copperTube(outerMm / 1000)?.innerVolumeM3PerM ?? 0;
}
