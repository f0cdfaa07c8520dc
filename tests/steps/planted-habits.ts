import { median } from '../../src/numerics/median.ts';
import { type Technician, technicians } from '../../src/simulate/technicians.ts';

/** Habits of simulated technicians that show in a skill. */
export const habits: Readonly<Record<string, readonly ((technician: Technician) => number)[]>> = {
  'pressure-test': [({ ignoresDesignPressure }) => ignoresDesignPressure, ({ leakMultiple }) => leakMultiple],
  evacuation: [({ skipsHold }) => skipsHold, ({ gaugeAtPump }) => gaugeAtPump, ({ wetMultiple }) => wetMultiple],
  rise: [({ leakMultiple }) => leakMultiple, ({ wetMultiple }) => wetMultiple],
  charge: [({ slips }) => Object.values(slips).reduce((sum, slip) => sum + slip, 0)],
  'tests-made': [
    ({ skipsRiseTest }) => skipsRiseTest,
    ({ testsShort }) => testsShort,
    ({ skipsPressureTest }) => skipsPressureTest,
  ],
  'pressure-test-log': [({ skipsPressureTest }) => skipsPressureTest],
};

/** Whether somebody was given twice as much of a habit as the one in the middle. */
export function isPlanted(technicianId: string, skillId: string): boolean {
  const technician = technicians.find((each) => each.technicianId === technicianId) as Technician;
  return (habits[skillId] ?? []).some((habit) => habit(technician) > 2 * median(Float64Array.from(technicians, habit)));
}
