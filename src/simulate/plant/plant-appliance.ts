import type { Appliance } from '../../records/tables/appliances.ts';
import { dateOfDay } from '../calendar.ts';
import type { LeakCourse } from './leak-repair.ts';
import type { LossBand } from './plant-leak.ts';

/** An appliance that the shop services by contract. */
export interface PlantAppliance {
  readonly siteId: string;
  readonly sector: NonNullable<Appliance['sector']>;
  /** On record; before a retrofit it holds another one. */
  readonly refrigerant: string;
  /** As it truly is [kg]. */
  readonly fullChargeKg: number;
  /** Absent where it is put up within the year. */
  readonly installedOn?: string;
  readonly basis: 'maker' | 'calculated' | 'measured' | 'range';
  readonly loss: LossBand;
  /** What becomes of its leaks, one after the other. */
  readonly leaks: readonly LeakCourse[];
  /** Before that day nobody looks for them; absent: from the first. */
  readonly leaksFromDay?: number;
  readonly inspections?: 'annual' | 'quarterly';
  readonly leakDetection?: true;
  readonly event?: PlantEvent;
  /** False where nobody has the full charge on record. */
  readonly isChargeKnown?: false;
  /** False where the record does not say whose rules apply. */
  readonly hasJurisdiction?: false;
}

/** What happens to an appliance once, whatever it leaks; days from the first. */
export type PlantEvent =
  | { readonly kind: 'install'; readonly onDay: number }
  | { readonly kind: 'retrofit'; readonly onDay: number; readonly from: string }
  /** Part of the charge is kept in a cylinder over winter. */
  | { readonly kind: 'seasonal'; readonly removedOnDay: number; readonly returnedOnDay: number };

/** The `appliances` row of the appliance at that place of the list. */
export function plantApplianceRow(appliance: PlantAppliance, index: number): Appliance {
  const { event, installedOn } = appliance;
  return {
    system_id: plantSystemId(index),
    site_id: appliance.siteId,
    refrigerant: appliance.refrigerant,
    ...(appliance.isChargeKnown === false ? {} : { full_charge_kg: appliance.fullChargeKg }),
    sector: appliance.sector,
    installed_on: installedOn ?? dateOfDay(event?.kind === 'install' ? event.onDay : 0),
    full_charge_basis: appliance.basis,
    ...(appliance.hasJurisdiction === false ? {} : { jurisdiction: 'US' }),
    hermetic: false,
    leak_detection: appliance.leakDetection ?? false,
  };
}

/** `plant-01` and so on. */
export function plantSystemId(index: number): string {
  return `plant-${String(index + 1).padStart(2, '0')}`;
}
