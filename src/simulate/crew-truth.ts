import { dateOfDay } from './calendar.ts';
import { type Crew, crews } from './crews.ts';
import { pumpOf } from './conditions.ts';

/** What a crew's gear truly was in a stretch of the year. */
export interface CrewTruth {
  readonly crew_id: string;
  readonly from_on: string;
  readonly to_on?: string | undefined;
  readonly pump_id: string;
  /** What the pump moves; the jobs have what its plate says [L/s]. */
  readonly pump_speed_l_per_s: number;
  /** Lowest pressure that it reaches, before what varies from job to job [Pa]. */
  readonly pump_base_pa: number;
  readonly hose_set_id: string;
  /** Air that the vacuum hose draws in, before what varies from job to job [Pa·m³/s]. */
  readonly hose_leak_pa_m3_per_s: number;
  readonly scale_id: string;
}

/** The columns of the table, in their order. */
export const crewTruthColumns = [
  'crew_id',
  'from_on',
  'to_on',
  'pump_id',
  'pump_speed_l_per_s',
  'pump_base_pa',
  'hose_set_id',
  'hose_leak_pa_m3_per_s',
  'scale_id',
] as const satisfies readonly (keyof CrewTruth)[];

/** A row for each crew and stretch of the year in which its gear stays as it is. */
export function crewTruth(): CrewTruth[] {
  return crews.flatMap((crew) => {
    const fromDays = [...new Set([0, crew.worn?.fromDay ?? 0, crew.hoseLeak?.fromDay ?? 0])].sort((a, b) => a - b);
    return fromDays.map((day, index) => row(crew, day, fromDays[index + 1]));
  });
}

function row(crew: Crew, day: number, nextDay: number | undefined): CrewTruth {
  const { speedLPerS, basePa } = pumpOf(crew, day);
  const { hoseLeak } = crew;
  return {
    crew_id: crew.crewId,
    from_on: dateOfDay(day),
    to_on: nextDay === undefined ? undefined : dateOfDay(nextDay - 1),
    pump_id: crew.pumpId,
    pump_speed_l_per_s: Math.round(speedLPerS * 1000) / 1000,
    pump_base_pa: basePa,
    hose_set_id: crew.hoseSetId,
    hose_leak_pa_m3_per_s: hoseLeak !== undefined && day >= hoseLeak.fromDay ? hoseLeak.paM3PerS : 0,
    scale_id: crew.scaleId,
  };
}
