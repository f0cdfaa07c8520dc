import { siteAtmosphere } from '../facts/site-atmosphere.ts';
import type { Facts } from '../records/tables/facts.ts';
import type { CheckExample, Judgement } from './check.ts';

/** Messages of every check that reads the log of the standing pressure test. */
export const pressureLogMessages = {
  'no-log': 'There is no log of a pressure test.',
  'not-opened': 'The work did not open the circuit, so no pressure test is asked for.',
  'too-few-readings': 'The log of the pressure test has too few readings to judge ({pressure_readings}).',
  cut: 'The log ends under pressure, before it shows the system shut in for a minute.',
  'below-air':
    'The log never shows more than {highest_test_pa}: that is no pressure test, or another unit than the column says.',
  gap: 'A gap in the log of the pressure test hides too much of the hold, so nothing is said of it.',
  'other-unit':
    'The pressure of the test looks like another unit than the column says (see the check of units), so nothing is said of it.',
  'time-unit':
    'The times of the log look like another unit than seconds (see the check of units), so nothing is said of the pressure test.',
} as const;

/** Messages of every check that judges its hold. */
export const pressureHoldMessages = {
  ...pressureLogMessages,
  'never-held': 'The system was pressurised, but the log never shows it shut in and watched.',
  'no-hold': 'The log of the pressure test does not tell when, or at what pressure, the system was shut in.',
} as const;

type LogMessage = keyof typeof pressureLogMessages;
type HoldMessage = keyof typeof pressureHoldMessages;

/** Examples of every check that reads the log of the standing pressure test. */
export const pressureLogExamples: readonly CheckExample<LogMessage>[] = [
  { name: 'no log', facts: {}, outcome: 'missing', message: 'no-log' },
  {
    name: 'the circuit stayed closed',
    facts: { pressure_problem: 'not-opened' },
    outcome: 'not-evaluated',
    message: 'not-opened',
  },
  {
    name: 'seven readings',
    facts: { pressure_readings: 7, pressure_problem: 'too-few-readings' },
    outcome: 'not-evaluated',
    message: 'too-few-readings',
  },
  {
    name: 'psi in a column of pascals',
    facts: { pressure_readings: 300, pressure_problem: 'below-air', highest_test_pa: 500 },
    outcome: 'not-evaluated',
    message: 'below-air',
  },
  {
    name: 'the log stops while it is filled',
    facts: { pressure_readings: 3, pressure_problem: 'cut', highest_test_pa: 1480276 },
    outcome: 'not-evaluated',
    message: 'cut',
  },
  {
    name: 'the logger was off for most of it',
    facts: { pressure_readings: 300, pressure_problem: 'gap' },
    outcome: 'not-evaluated',
    message: 'gap',
  },
  ...(['other-unit', 'time-unit'] as const).map((problem) => ({
    name: problem,
    facts: { pressure_readings: 300, pressure_problem: problem },
    outcome: 'not-evaluated' as const,
    message: problem,
  })),
];

const noHold: CheckExample<HoldMessage> = {
  name: 'when it was shut in is not known',
  facts: { pressure_readings: 900 },
  outcome: 'not-evaluated',
  message: 'no-hold',
};

/** Facts of a test that was filled and let off again at once. */
export const neverHeld: Partial<Facts> = { pressure_readings: 300, pressure_problem: 'never-held' };

/** Examples of the check that asks whether there was a hold at all. */
export const noHoldExamples: readonly CheckExample<HoldMessage>[] = [...pressureLogExamples, noHold];

/** Examples of every check that judges the hold. */
export const pressureHoldExamples: readonly CheckExample<HoldMessage>[] = [
  ...noHoldExamples,
  { name: 'filled and let off', facts: neverHeld, outcome: 'not-evaluated', message: 'never-held' },
];

/** The judgement where the log is missing or carries none; undefined where it can be judged, or shows no hold. */
export function pressureLogProblem(facts: Partial<Facts>): Judgement<LogMessage> | undefined {
  const { pressure_readings, pressure_problem: problem } = facts;
  if (problem === 'not-opened') return { outcome: 'not-evaluated', message: 'not-opened', evidence: {} };
  if (pressure_readings === undefined) return { outcome: 'missing', message: 'no-log', evidence: {} };
  if (problem === undefined || problem === 'never-held') return undefined;
  const { highest_test_pa, atmosphere_pa } = facts;
  return {
    outcome: 'not-evaluated',
    message: problem,
    evidence: { pressure_readings, highest_test_pa, atmosphere_pa },
  };
}

/** A hold that can be judged. */
export interface PressureHold {
  /** How long the system was shut in, settling included [s]. */
  readonly holdS: number;
  /** Pressure from when on it is judged [Pa], absolute. */
  readonly heldPa: number;
  /** Pressure of the air, from which gauges count [Pa]. */
  readonly airPa: number;
}

/** The hold of the standing pressure test, or the judgement where there is none to judge. */
export function pressureHoldOrProblem(facts: Partial<Facts>): PressureHold | { problem: Judgement<HoldMessage> } {
  const problem = pressureLogProblem(facts);
  if (problem !== undefined) return { problem };
  const { pressure_readings, pressure_problem, held_test_pa: heldPa } = facts;
  const { pressure_hold_start_s: start, pressure_hold_end_s: end } = facts;
  const evidence = { pressure_readings };
  if (pressure_problem !== undefined) return { problem: { outcome: 'not-evaluated', message: 'never-held', evidence } };
  if (start === undefined || end === undefined || heldPa === undefined)
    return { problem: { outcome: 'not-evaluated', message: 'no-hold', evidence } };
  return { holdS: end - start, heldPa, airPa: airPressure(facts) };
}

/** Pressure of the air at the site [Pa]; of the sea where the facts have none. */
export function airPressure({ atmosphere_pa }: Partial<Facts>): number {
  return atmosphere_pa ?? siteAtmosphere(undefined);
}
