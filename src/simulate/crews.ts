import type { SystemType } from './system.ts';

/** A crew: its gear and the jobs it is sent to. */
export interface Crew {
  readonly crewId: string;
  readonly pumpId: string;
  readonly pumpSpeedLPerS: number;
  readonly pumpBasePa: number;
  /** Day from which the pump is worn, and what it reaches then [Pa]. */
  readonly worn?: { readonly fromDay: number; readonly basePa: number };
  readonly hoseSetId: string;
  readonly hoseBoreMm: number;
  readonly hoseLengthM: number;
  /** Air that the hose draws in [Pa·m³/s], from that day on. */
  readonly hoseLeak?: { readonly fromDay: number; readonly paM3PerS: number };
  /** From the cylinder to the system, and what stands in it when the cylinder is closed. */
  readonly chargingHose: { readonly boreMm: number; readonly lengthM: number; readonly phase: 'liquid' | 'vapour' };
  readonly scaleId: string;
  readonly scaleStepKg: number;
  readonly systemTypes: Readonly<Record<SystemType, number>>;
  /** Share of jobs that repair a system that has run. */
  readonly repairShare: number;
}

/** Four crews of our own invention. */
export const crews: readonly Crew[] = [
  {
    crewId: 'crew-alder',
    pumpId: 'pump-1',
    pumpSpeedLPerS: 2.83,
    pumpBasePa: 3,
    hoseSetId: 'hose-1',
    hoseBoreMm: 9.5,
    hoseLengthM: 1.8,
    chargingHose: { boreMm: 4.8, lengthM: 1.8, phase: 'liquid' },
    scaleId: 'scale-1',
    scaleStepKg: 0.005,
    systemTypes: { ductless: 0.7, ducted: 0.2, multi: 0.1 },
    repairShare: 0.1,
  },
  {
    crewId: 'crew-birch',
    pumpId: 'pump-2',
    pumpSpeedLPerS: 1.9,
    pumpBasePa: 4,
    hoseSetId: 'hose-2',
    hoseBoreMm: 6.4,
    hoseLengthM: 1.5,
    hoseLeak: { fromDay: 90, paM3PerS: 1.6e-4 },
    chargingHose: { boreMm: 4.8, lengthM: 3, phase: 'liquid' },
    scaleId: 'scale-2',
    scaleStepKg: 0.001,
    systemTypes: { ductless: 0.45, ducted: 0.4, multi: 0.15 },
    repairShare: 0.15,
  },
  {
    crewId: 'crew-cedar',
    pumpId: 'pump-3',
    pumpSpeedLPerS: 3.8,
    pumpBasePa: 2.5,
    hoseSetId: 'hose-3',
    hoseBoreMm: 9.5,
    hoseLengthM: 1.5,
    chargingHose: { boreMm: 4.8, lengthM: 0.9, phase: 'liquid' },
    scaleId: 'scale-3',
    scaleStepKg: 0.01,
    systemTypes: { ductless: 0.25, ducted: 0.65, multi: 0.1 },
    repairShare: 0.35,
  },
  {
    crewId: 'crew-dogwood',
    pumpId: 'pump-4',
    pumpSpeedLPerS: 2.4,
    pumpBasePa: 4,
    worn: { fromDay: 230, basePa: 24 },
    hoseSetId: 'hose-4',
    hoseBoreMm: 6.4,
    hoseLengthM: 1.8,
    chargingHose: { boreMm: 6.4, lengthM: 1.8, phase: 'vapour' },
    scaleId: 'scale-4',
    scaleStepKg: 0.02,
    systemTypes: { ductless: 0.5, ducted: 0.2, multi: 0.3 },
    repairShare: 0.15,
  },
];
