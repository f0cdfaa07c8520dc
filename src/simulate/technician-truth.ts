import type { Training } from '../records/tables/trainings.ts';
import { dateOfDay } from './calendar.ts';
import type { ChargeSlip } from './charge-slips.ts';
import { onDay, type Technician, technicians } from './technicians.ts';

const figures = {
  crew_id: 'crewId',
  workload: 'workload',
  skips_rise_test: 'skipsRiseTest',
  skips_hold: 'skipsHold',
  skips_pressure_test: 'skipsPressureTest',
  tests_short: 'testsShort',
  ignores_design_pressure: 'ignoresDesignPressure',
  test_pressure_psi: 'testPressurePsi',
  removes_cores: 'removesCores',
  gauge_at_pump: 'gaugeAtPump',
  breaks_with_nitrogen: 'breaksWithNitrogen',
  retests: 'retests',
  leak_multiple: 'leakMultiple',
  wet_multiple: 'wetMultiple',
} as const satisfies Record<string, keyof Technician>;

type Figure = keyof typeof figures;

const slips: readonly ChargeSlip[] = [
  'from-zero',
  'line-ignored',
  'factory-again',
  'ounce-tenth-pound',
  'kg-pound',
  'hose-residual',
  'other-line-size',
  'other-refrigerant',
];
const slipColumn = (slip: ChargeSlip) => `slip_${slip.replaceAll('-', '_')}`;

/** How a technician truly worked in a stretch of the year: a row of probabilities and multiples of the shop's usual. */
export type TechnicianTruth = Readonly<Record<string, string | number | undefined>>;

/** The columns of the table, in their order. */
export const technicianTruthColumns: readonly string[] = [
  'technician_id',
  'from_on',
  'to_on',
  ...Object.keys(figures),
  ...slips.map(slipColumn),
];

/** What a training truly changed: a column of the technicians' truth, from and to; all absent where it changed nothing. */
export interface TrainingTruth {
  readonly training_id: string;
  readonly technician_id?: string | undefined;
  readonly changed?: string | undefined;
  readonly before?: number | undefined;
  readonly after?: number | undefined;
}

/** The columns of the table, in their order. */
export const trainingTruthColumns = [
  'training_id',
  'technician_id',
  'changed',
  'before',
  'after',
] as const satisfies readonly (keyof TrainingTruth)[];

/** A row for each technician and stretch of the year in which nothing about them changes. */
export function technicianTruth(): TechnicianTruth[] {
  return technicians.flatMap((technician) => {
    const { change } = technician;
    if (change === undefined) return [row(technician, 0, undefined)];
    return [row(technician, 0, change.fromDay - 1), row(onDay(technician, change.fromDay), change.fromDay, undefined)];
  });
}

function row(technician: Technician, fromDay: number, toDay: number | undefined): TechnicianTruth {
  return {
    technician_id: technician.technicianId,
    from_on: dateOfDay(fromDay),
    to_on: toDay === undefined ? undefined : dateOfDay(toDay),
    ...Object.fromEntries((Object.keys(figures) as Figure[]).map((name) => [name, technician[figures[name]]])),
    ...Object.fromEntries(slips.map((slip) => [slipColumn(slip), technician.slips[slip] ?? 0])),
  };
}

/** What each training changed: what is another from the next day on. */
export function trainingTruth(trainings: readonly Training[]): TrainingTruth[] {
  return trainings.map(({ training_id, technician_id, held_on }) => {
    const nothing = { training_id, technician_id };
    const technician = technicians.find((one) => one.technicianId === technician_id);
    const fromDay = technician?.change?.fromDay;
    if (technician === undefined || fromDay === undefined || dateOfDay(fromDay - 1) !== held_on) return nothing;
    const after = onDay(technician, fromDay);
    const changed = (Object.keys(figures) as Figure[]).find(
      (name) => typeof technician[figures[name]] === 'number' && technician[figures[name]] !== after[figures[name]],
    );
    if (changed === undefined) return nothing;
    const name = figures[changed];
    return { ...nothing, changed, before: Number(technician[name]), after: Number(after[name]) };
  });
}
