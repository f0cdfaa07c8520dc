import type { CylinderRecord } from '../../src/accounts/cylinder-record.ts';
import type { Random } from '../../src/numerics/random.ts';
import type { TypedSlip } from './typed-slip.ts';

/** What a weighing is made with: the whole on the scale, the empty weight taken off, or the scale set to 0. */
export type Habit = 'whole' | 'content' | 'zero';

/** A weighing as it was made, and as it was written. */
export interface DrawnWeighing {
  readonly weighingId: string;
  /** Of which cylinder it is. */
  readonly of: string;
  /** For which it is written. */
  writtenFor: string;
  readonly habit: Habit;
  readonly refrigerant: string;
  readonly direction: 'in' | 'out';
  readonly day: number;
  readonly atMs: number;
  /** As the scale showed. */
  readonly shown: { readonly startKg: number; readonly endKg: number };
  startKg: number;
  endKg: number;
  readonly stepKg: number;
  readonly jobId: string;
  readonly siteId: string;
  readonly technicianId: string;
  readonly crewId: string;
}

/** Something that was done to a cylinder, or to what is written of it. */
export type Planted =
  | { readonly kind: 'theft'; readonly kg: number; readonly atMs: number; readonly day: number }
  | {
      readonly kind: 'slip';
      readonly weighing: DrawnWeighing;
      readonly which: 'start' | 'end';
      readonly how: TypedSlip;
      readonly kg: number;
    }
  | { readonly kind: 'misplaced'; readonly weighing: DrawnWeighing; readonly to: string }
  /** A weighing of another cylinder was written for it. */
  | { readonly kind: 'host' };

/** A cylinder as it is, with its record. */
export interface DrawnCylinder {
  readonly cylinderId: string;
  readonly crew: number;
  readonly record: { -readonly [Key in keyof CylinderRecord]: CylinderRecord[Key] };
  readonly stampedKg: number;
  readonly emptyKg: number;
  /** Of its valve. */
  readonly capKg: number;
  /** What stays in it when it is put away. */
  readonly heelKg: number;
  contentKg: number;
  readonly weighings: DrawnWeighing[];
  planted: Planted | null;
  /** What is to be stolen after so many weighings. */
  readonly theft: { readonly afterWeighings: number; readonly kg: number } | null;
  /** Of its account, what is not by the book. */
  readonly marks: Set<string>;
}

/** A cylinder that comes into the shop, full or to be filled. */
export function drawnCylinder(
  random: Random,
  order: {
    readonly cylinderId: string;
    readonly crew: number;
    readonly refrigerant: string;
    readonly kind: 'supply' | 'recovery';
    readonly isPlant: boolean;
    readonly day: number;
    /** How much more than it says is in every cylinder of a delivery. */
    readonly fillRatio: number;
  },
): DrawnCylinder {
  const { cylinderId, crew, refrigerant, kind, isPlant, day, fillRatio } = order;
  const saidKg = isPlant ? random.choice([45, 52, 60]) : random.choice([5, 9.5, 10, 11.3, 12]);
  const emptyKg = saidKg * random.uniform(0.45, 0.6) + 1.5;
  const stampStepKg = random.choice([0.05, 0.1]);
  const stampedKg = Number((Math.round(emptyKg / stampStepKg) * stampStepKg).toFixed(2));
  const isSupply = kind === 'supply';
  return {
    cylinderId,
    crew,
    record: {
      cylinderId,
      refrigerant,
      writtenRefrigerant: refrigerant,
      kind,
      acquiredDay: day,
      netKg: isSupply ? saidKg : random.choice([null, 0]),
      cost: null,
      closedDay: null,
      closingKg: null,
      tareKg: random.chance(0.88) ? stampedKg : null,
      capacityKg: isSupply ? null : saidKg,
    },
    stampedKg,
    emptyKg,
    capKg: random.uniform(0.02, 0.06),
    heelKg: random.uniform(0.02, 0.25),
    contentKg: isSupply ? saidKg * (1 + fillRatio + random.uniform(-0.005, 0.005)) : 0,
    weighings: [],
    planted: null,
    theft:
      isSupply && random.chance(0.05) ? { afterWeighings: random.integer(1, 5), kg: random.logUniform(0.1, 3) } : null,
    marks: new Set(),
  };
}
