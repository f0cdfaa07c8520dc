import type { BalanceCellRow } from '../../src/charts/balance-cell-row.ts';
import type { FilterableRow } from '../../src/charts/chart-filter.ts';
import type { JobCell } from '../../src/charts/flagged-by-month.ts';
import type { LimitPoint } from '../../src/charts/limit-margins.ts';
import type { SkillCell } from '../../src/charts/skill-cell.ts';
import { Random } from '../../src/numerics/random.ts';

export const months = ['2025-10', '2025-11', '2025-12', '2026-01', '2026-02', '2026-03'];
export const crews = ['Birch', 'Quarry "2" \\ \u2028'];
export const technicians = ['Ash', 'Bo (t-2)', "Cy O'Hare \\ \u2028", 'Dee'];
export const refrigerants = ['R-32', 'R-410A'];

/** A row for each of what can be filtered by, month and whoever it was not known for too; two in three are there. */
export function drawnCells<Row extends FilterableRow>(
  seed: number,
  rest: (random: Random) => Omit<Row, keyof FilterableRow>,
): Row[] {
  const random = new Random(seed);
  return ['', ...months].flatMap((month) =>
    ['', ...crews].flatMap((crew) =>
      ['', ...technicians].flatMap((technician) =>
        refrigerants.flatMap((refrigerant) =>
          random.uniform() < 1 / 3 ? [] : [{ month, crew, technician, refrigerant, ...rest(random) } as Row],
        ),
      ),
    ),
  );
}

/** Jobs that were judged, some of which were flagged; in the month without a judged job there are rows all the same. */
export const jobCells = drawnCells<JobCell>(1, (random) => {
  const judged = Math.floor(6 * random.uniform());
  return { judged, flagged: Math.floor((judged + 1) * random.uniform()) };
}).map((cell) => (cell.month === '2025-12' ? { ...cell, judged: 0, flagged: 0 } : cell));

/** Jobs over their days; of some the day is not known. */
export const limitPoints = drawnCells<LimitPoint>(2, (random) => {
  const ratio = Number(random.logUniform(0.003, 5).toPrecision(4));
  const outcome = ratio <= 1 ? 'pass' : ratio <= 2 ? 'suspect' : 'fail';
  const dayOfMonth = String(random.integer(1, 28)).padStart(2, '0');
  return { job: 'job', day: dayOfMonth, ratio, outcome, weight: 1 };
}).map((point) => ({ ...point, day: point.month === '' ? '' : `${point.month}-${point.day}` }));

/** Jobs judged for two skills, of which much is found of some people, and hardly anything of others. */
export const skillCells = ['evacuation', 'charge "\u2028'].flatMap((skill, seed) =>
  drawnCells<SkillCell>(3 + seed, (random) => {
    const judged = random.integer(0, 6);
    return {
      skill,
      jobs: judged + random.integer(0, 3),
      judged,
      found: 0,
      expected: judged === 0 ? 0 : judged * random.uniform(0.1, 0.3),
    };
  }).map((cell): SkillCell => {
    const share = [0.2, 0.9, 0.01, 0.3][technicians.indexOf(cell.technician)] ?? 0.2;
    return { ...cell, found: Math.floor(cell.judged * share + 0.5) };
  }),
);

/** Flows of refrigerant; of one refrigerant now and then without a price, or a value as carbon dioxide. */
export const balanceCells = drawnCells<BalanceCellRow>(5, (random) => ({
  boughtKg: random.choice([0, 0, 10]),
  chargedKg: random.uniform(0, 6),
  recoveredKg: random.uniform(0, 2),
  unexplainedKg: random.normal(0.02, 0.1),
  unexplainedVarianceKg2: random.uniform(0, 0.002),
  cost: random.chance(0.3) ? null : random.uniform(0, 200),
  co2eT: random.chance(0.2) ? null : random.uniform(0, 12),
}));

/** What is asked for, and the rows that pass, told by other means than the charts'. */
export interface Asked {
  readonly crew?: string;
  readonly technician?: string;
  readonly refrigerant?: string;
  readonly from?: string;
  readonly to?: string;
}

export const asks: readonly Asked[] = [
  {},
  { crew: crews[1] },
  { technician: technicians[2] },
  { refrigerant: 'R-32' },
  { from: '2025-11' },
  { to: '2026-01' },
  { crew: 'Birch', technician: 'Ash', refrigerant: 'R-410A', from: '2025-10', to: '2026-02' },
  { crew: 'nobody' },
];

/** All signals of a filter, null where nothing is asked. */
export const signalsOf = ({
  crew = null,
  technician = null,
  refrigerant = null,
  from = null,
  to = null,
}: NullableAsked) => ({
  crew,
  technician,
  refrigerant,
  from,
  to,
});

type NullableAsked = { readonly [Name in keyof Asked]?: string | null };

/** Whether a row is one of those asked for. */
export function isAsked(row: FilterableRow, { crew, technician, refrigerant, from, to }: Asked): boolean {
  const monthNumber = (month: string) => 12 * Number.parseInt(month.slice(0, 4), 10) + Number(month.slice(5));
  if (crew !== undefined && row.crew !== crew) return false;
  if (technician !== undefined && row.technician !== technician) return false;
  if (refrigerant !== undefined && row.refrigerant !== refrigerant) return false;
  if (from === undefined && to === undefined) return true;
  const at = monthNumber(row.month);
  return at >= monthNumber(from ?? '0000-01') && at <= monthNumber(to ?? '9999-12');
}

/** The sum of a field. */
export const sumOf = <Key extends string>(rows: readonly Record<Key, number>[], key: Key): number =>
  rows.reduce((sum, row) => sum + row[key], 0);
