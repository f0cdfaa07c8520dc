import type { Facts } from '../records/tables/facts.ts';
import type { CheckExample, Evidence } from './check.ts';
import { columnWords } from './column-words.ts';

type Sign = NonNullable<Facts['unit_sign']>;

const until = 'Until then nothing that rests on it is judged.';
const mend = `Mend the source map and take the file in again. ${until}`;
const compare = `Look at one figure that somebody knows; if it is so, mend the source map and take the file in again. ${until}`;

/** What shows that a column is in another unit than it says: one message each. */
export const unitMessages: Readonly<Record<Sign, string>> = {
  'begins-at-air': `The log of {what} begins at the pressure of the air in {likely}, not in {said}: {factor}.{also} ${mend}`,
  'gauge-on-record': `The steps and the range of {what} are those of the gauge on record in {likely}, not in {said}: {factor}.{also} ${mend}`,
  'over-limit': `Where {what} goes over its range no gauge of the trade does in {said}; in {likely} it does: {factor}.{also} ${compare}`,
  'too-deep': `By {what} the vacuum goes deeper, again and again, than any pump of the trade pulls a circuit; in {likely} it would be usual: {factor}.{also} ${compare}`,
  'too-low': `The readings of {what} are those of a pressure test in {likely}, not in {said}: {factor}.{also} ${mend}`,
  vented: `With no pressure on it {what} shows nothing, where the pressure of the air is due: it counts from the air, {likely} in a column of {said}.{also} ${mend}`,
  'rest-gauge': `At rest the pressure is too low for the refrigerant by just the pressure of the air: it may be {likely} in a column of {said}.{also} ${compare}`,
  'rest-factor': `At rest the pressure is that of the refrigerant were it read in {likely}, not in {said}: {factor}.{also} ${compare}`,
  'too-warm': `By {what} it is warmer than any place that a system stands in; in {likely} it would be usual, not in {said}: {factor}, and the zero is another.{also} ${compare}`,
  'air-and-line': `Before the system starts, {what} is far from the air and the lines beside it; in {likely} it would be just among them, not in {said}: {factor}, and the zero is another.{also} ${compare}`,
  power: `By both pressures the system ran, while {what} shows next to nothing: {likely} in a column of {said}, {factor}. ${mend}`,
  times: `The log is over sooner, or later, than the work that it shows can be: its times look like {likely}, not {said}: {factor}.{also} ${mend}`,
};

/** The evidence of a suspicion, in words that fill the messages. */
export function unitEvidence(facts: Partial<Facts>): Evidence {
  const { unit_column, unit_said, unit_likely, unit_also, unit_factor } = facts;
  return {
    what: unit_column === undefined ? 'a column' : columnWords[unit_column],
    said: unit_said ?? 'its unit',
    likely: unit_likely ?? 'another unit',
    factor: factorText(unit_factor ?? 1, unit_said ?? '', unit_likely ?? ''),
    also: unit_also === undefined ? '' : ` It may also be ${unit_also}.`,
  };
}

function factorText(factor: number, said: string, likely: string): string {
  const figure = (value: number) => String(Number(value.toPrecision(4)));
  return factor >= 1 ? `1 ${likely} is ${figure(factor)} ${said}` : `1 ${said} is ${figure(1 / factor)} ${likely}`;
}

const seen = { recorded_columns: 3 } as const;
const vacuum = { ...seen, unit_column: 'vacuum_pa', unit_said: 'Pa' } as const;

/** Examples of every sign. */
export const unitExamples: readonly CheckExample<Sign>[] = [
  {
    name: 'a vacuum log in Torr',
    facts: { ...vacuum, unit_sign: 'begins-at-air', unit_likely: 'Torr', unit_factor: 133.322368, unit_sure: true },
    outcome: 'fail',
    message: 'begins-at-air',
  },
  {
    name: 'mbar at the sea or Torr in the mountains',
    facts: {
      ...vacuum,
      unit_sign: 'begins-at-air',
      unit_likely: 'Torr',
      unit_also: 'mbar',
      unit_factor: 133.322368,
      unit_sure: false,
    },
    outcome: 'suspect',
    message: 'begins-at-air',
  },
  {
    name: 'microns by the gauge on record',
    facts: {
      ...vacuum,
      unit_sign: 'gauge-on-record',
      unit_likely: 'microns',
      unit_factor: 0.133322368,
      unit_sure: true,
    },
    outcome: 'fail',
    message: 'gauge-on-record',
  },
  {
    name: 'over at twenty',
    facts: {
      ...vacuum,
      unit_sign: 'over-limit',
      unit_likely: 'Torr',
      unit_also: 'mbar',
      unit_factor: 133.322368,
      unit_sure: false,
    },
    outcome: 'suspect',
    message: 'over-limit',
  },
  {
    name: 'a hundredth of a pascal',
    facts: { ...vacuum, unit_sign: 'too-deep', unit_likely: 'mbar', unit_also: 'Torr or kPa', unit_factor: 100 },
    outcome: 'suspect',
    message: 'too-deep',
  },
  {
    name: 'a test of 500',
    facts: {
      ...seen,
      unit_column: 'test_pressure_pa',
      unit_sign: 'too-low',
      unit_said: 'Pa',
      unit_likely: 'psi',
      unit_factor: 6894.757,
      unit_sure: true,
    },
    outcome: 'fail',
    message: 'too-low',
  },
  {
    name: 'nothing where the air is due',
    facts: {
      ...seen,
      unit_column: 'test_pressure_pa',
      unit_sign: 'vented',
      unit_said: 'absolute pressure',
      unit_likely: 'gauge pressure',
      unit_factor: 1,
      unit_sure: true,
    },
    outcome: 'fail',
    message: 'vented',
  },
  {
    name: 'low by the air, or another refrigerant',
    facts: {
      ...seen,
      unit_column: 'liquid_pa',
      unit_sign: 'rest-gauge',
      unit_said: 'absolute pressure',
      unit_likely: 'gauge pressure',
      unit_also: 'R-22 in the system',
      unit_factor: 1,
    },
    outcome: 'suspect',
    message: 'rest-gauge',
  },
  {
    name: 'psi taken for kilopascals',
    facts: {
      ...seen,
      unit_column: 'liquid_pa',
      unit_sign: 'rest-factor',
      unit_said: 'kPa',
      unit_likely: 'psi',
      unit_factor: 6.894757,
    },
    outcome: 'suspect',
    message: 'rest-factor',
  },
  ...(['too-warm', 'air-and-line'] as const).map((sign) => ({
    name: sign,
    facts: {
      ...seen,
      unit_column: 'outdoor_c' as const,
      unit_sign: sign,
      unit_said: '°C',
      unit_likely: '°F',
      unit_factor: 5 / 9,
    },
    outcome: 'suspect' as const,
    message: sign,
  })),
  {
    name: 'two kilowatts as two watts',
    facts: {
      ...seen,
      unit_column: 'compressor_w',
      unit_sign: 'power',
      unit_said: 'W',
      unit_likely: 'kW',
      unit_factor: 1000,
      unit_sure: true,
    },
    outcome: 'fail',
    message: 'power',
  },
  {
    name: 'a job of ninety seconds',
    facts: {
      ...seen,
      unit_column: 'elapsed_s',
      unit_sign: 'times',
      unit_said: 's',
      unit_likely: 'min',
      unit_factor: 60,
      unit_sure: true,
    },
    outcome: 'fail',
    message: 'times',
  },
];
