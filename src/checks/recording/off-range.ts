import type { Facts } from '../../records/tables/facts.ts';
import { plausibleLimits } from '../../facts/recording/plausible-limits.ts';
import { check } from '../check.ts';
import { columnWords } from '../column-words.ts';

const look = 'Look at the unit of the column, at the sensor, and whether two columns were mixed up.';

/** Whether masses, pressures and clamps show what a system can show, and every column what an instrument of the trade reads. */
export const offRange = check({
  id: 'off-range',
  group: 'recording',
  gear: ['gauge', 'scale'],
  revisit: 'record',
  question: 'Are all readings such as a system and its instruments can have?',
  needs: ['recorded_columns', 'drawn_kg', 'steady_start_s'],
  limits: {},
  messages: {
    plausible: 'Nothing impossible in {looked_at}.',
    'absurd-mass':
      'What the record or the scale says was charged, {drawn_kg}, no such system takes, or none at all. Look at the entry and at the unit.',
    swapped:
      'The liquid pressure is below the suction pressure while the compressor runs: the two columns look swapped. Mend the source map and take the file in again.',
    'clamp-off': 'A pipe clamp shows the air while the pipe must be colder or warmer: it hung in the air.',
    'below-dew':
      'A line is on the wrong side of saturation by {beyond_off_k}: a clamp, a gauge, the unit of a column or the refrigerant is not what the record says.',
    'off-curve':
      'A pressure of the run is one at which the refrigerant on record does not boil: look at the unit of the column, at the gauge and at the label of the cylinder.',
    'air-absurd':
      'Air temperatures of the run are such as no house has: look at the units of the columns, and whether two were mixed up.',
    'beyond-pressure': `Readings of {what} are {side} {bound_gauge_pa}, the farthest {worst_gauge_pa}: no job shows that; {range_readings} readings are so. ${look}`,
    'beyond-temperature': `Readings of {what} are {side} {bound_k}, the farthest {worst_k}: no job shows that; {range_readings} readings are so. ${look}`,
    'beyond-mass': `Readings of {what} are {side} {bound_kg}, the farthest {worst_kg}: no job shows that; {range_readings} readings are so. ${look}`,
    'beyond-power': `Readings of {what} are {side} {bound}, the farthest {worst}: no job shows that; {range_readings} readings are so. ${look}`,
    'absurd-residual':
      'More is said to have stayed in the hoses, {hose_residual_kg}, than left the cylinder, {drawn_kg}.',
    'nothing-to-see': 'There are neither readings nor a charge to look at.',
  },
  teach:
    'Before a reading is judged it has to be possible. Clamps on bright metal and under insulation, the blue hose on the large pipe and the red one on the small, and a look at every number while it can still be taken again.',
  references: ['common-practice'],
  examples: [
    { name: 'as it should be', facts: { drawn_kg: 0.4, run_readings: 200 }, outcome: 'pass', message: 'plausible' },
    {
      name: 'forty kilograms',
      facts: { drawn_kg: 40, charge_problem: 'absurd-mass' },
      outcome: 'fail',
      message: 'absurd-mass',
    },
    {
      name: 'hoses swapped',
      facts: { run_readings: 200, run_problem: 'swapped' },
      outcome: 'fail',
      message: 'swapped',
    },
    {
      name: 'a clamp in the air',
      facts: { run_readings: 200, run_problem: 'clamp-off' },
      outcome: 'fail',
      message: 'clamp-off',
    },
    {
      name: 'suction line colder than its dew point',
      facts: { run_readings: 200, run_problem: 'below-dew', run_dew_k: 285, run_suction_line_k: 279 },
      outcome: 'suspect',
      message: 'below-dew',
    },
    ...(['off-curve', 'air-absurd'] as const).map((problem) => ({
      name: problem,
      facts: { run_readings: 200, run_problem: problem },
      outcome: 'suspect' as const,
      message: problem,
    })),
    {
      name: 'more in the hoses than was drawn',
      facts: { drawn_kg: 0.5, hose_residual_kg: 1.5, charge_problem: 'absurd-residual' },
      outcome: 'fail',
      message: 'absurd-residual',
    },
    {
      name: 'a pipe at 200 °C',
      facts: { recorded_columns: 3, range_column: 'suction_line_c', range_readings: 40, range_worst: 200 },
      outcome: 'suspect',
      message: 'beyond-temperature',
    },
    {
      name: 'a test at 80 bar',
      facts: { recorded_columns: 3, range_column: 'test_pressure_pa', range_readings: 40, range_worst: 8e6 },
      outcome: 'suspect',
      message: 'beyond-pressure',
    },
    {
      name: 'a cylinder of less than nothing',
      facts: { recorded_columns: 3, range_column: 'scale_kg', range_readings: 40, range_worst: -120 },
      outcome: 'suspect',
      message: 'beyond-mass',
    },
    {
      name: 'a compressor of a whole building',
      facts: { recorded_columns: 3, range_column: 'compressor_w', range_readings: 40, range_worst: 250000 },
      outcome: 'suspect',
      message: 'beyond-power',
    },
    { name: 'every column within its use', facts: { recorded_columns: 3 }, outcome: 'pass', message: 'plausible' },
    { name: 'nothing', facts: {}, outcome: 'not-evaluated', message: 'nothing-to-see' },
  ],
  judge(facts) {
    const { drawn_kg, run_problem: problem } = facts;
    const evidence = { drawn_kg };
    if (facts.charge_problem === 'absurd-mass' && drawn_kg !== undefined)
      return { outcome: 'fail', message: 'absurd-mass', evidence };
    if (facts.charge_problem === 'absurd-residual' && drawn_kg !== undefined && facts.hose_residual_kg !== undefined)
      return {
        outcome: 'fail',
        message: 'absurd-residual',
        evidence: { drawn_kg, hose_residual_kg: facts.hose_residual_kg },
      };
    if (problem === 'off-curve' || problem === 'air-absurd') return { outcome: 'suspect', message: problem, evidence };
    if (problem === 'swapped' || problem === 'clamp-off') return { outcome: 'fail', message: problem, evidence };
    if (problem === 'below-dew') {
      const {
        run_dew_k: dewK,
        run_suction_line_k: suctionK,
        run_bubble_k: bubbleK,
        run_liquid_line_k: liquidK,
      } = facts;
      const isTwoPhase = facts.liquid_line_phase === 'two-phase';
      const beyond = [
        dewK === undefined || suctionK === undefined ? 0 : dewK - suctionK,
        bubbleK === undefined || liquidK === undefined || isTwoPhase ? 0 : liquidK - bubbleK,
      ];
      return { outcome: 'suspect', message: problem, evidence: { beyond_off_k: Math.max(0, ...beyond) } };
    }
    if (facts.range_column !== undefined) return { outcome: 'suspect', ...beyond(facts, facts.range_column) };
    const { recorded_columns: columns } = facts;
    const looked = [
      ...(columns === undefined
        ? []
        : [columns === 1 ? 'the one column of readings' : `the ${columns} columns of readings`]),
      ...(drawn_kg === undefined ? [] : ['what was charged']),
      ...(facts.steady_start_s === undefined ? [] : ['pressures and pipe temperatures of the steady run']),
    ];
    if (looked.length === 0) return { outcome: 'not-evaluated', message: 'nothing-to-see', evidence: {} };
    return { outcome: 'pass', message: 'plausible', evidence: { ...evidence, looked_at: looked.join(', nor in ') } };
  },
});

/** What went beyond its limits of use. */
function beyond(
  { range_worst: worst = 0, range_readings = 0, atmosphere_pa }: Partial<Facts>,
  column: NonNullable<Facts['range_column']>,
) {
  const { low, high } = plausibleLimits[column];
  const isHigh = worst > high;
  const bound = isHigh ? high : low;
  const common = { what: columnWords[column], side: isHigh ? 'above' : 'below', range_readings };
  if (column.endsWith('_pa')) {
    const evidence = { ...common, bound_gauge_pa: bound, worst_gauge_pa: worst, atmosphere_pa };
    return { message: 'beyond-pressure' as const, evidence };
  }
  if (column === 'scale_kg')
    return { message: 'beyond-mass' as const, evidence: { ...common, bound_kg: bound, worst_kg: worst } };
  if (column === 'compressor_w') {
    const inKw = (watts: number) => `${Number((watts / 1000).toPrecision(3))} kW`;
    return { message: 'beyond-power' as const, evidence: { ...common, bound: inKw(bound), worst: inKw(worst) } };
  }
  // The clamp on the line is in kelvins already.
  const zeroK = column === 'line_c' ? 0 : 273.15;
  return {
    message: 'beyond-temperature' as const,
    evidence: { ...common, bound_k: bound + zeroK, worst_k: worst + zeroK },
  };
}
