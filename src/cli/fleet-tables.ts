import type { FleetReport, RatesReport } from '../pages/fleet-data.ts';
import { percentText } from '../pages/share-text.ts';

type RateRow = RatesReport['groupings'][number]['units'][number];

/** Of more units only those are shown that are farthest from what is expected. */
const mostRows = 40;
const fewJobs = 10;

/** Technicians by skills. */
export interface SkillGrid {
  readonly heads: readonly string[];
  readonly rows: readonly (readonly string[])[];
  /** How many technicians are not shown. */
  readonly left: number;
}

/** Found of judged jobs of each technician in each skill that is given, and how much that is of what is expected. */
export function skillGrid({ rates, standingOut }: FleetReport): SkillGrid {
  const flagged = rates.filter(({ kind }) => kind === 'skill');
  const people = flagged.map(({ groupings }) => groupings.find(({ kind }) => kind === 'technician')?.units ?? []);
  const marks = new Map(
    standingOut.map(({ unit, skill, laidTo }) => [
      `${unit.kind} ${unit.id} ${skill.id}`,
      laidTo.verdict === 'shared' ? '°' : '*',
    ]),
  );
  const count = people[0]?.length ?? 0;
  const rows = Array.from({ length: count }, (_, at) => {
    const of = people.map((units) => units[at]);
    const cells = of.map((rate, skill) =>
      cell(rate, marks.get(`technician ${rate.unit.id} ${flagged[skill].skill.id}`) ?? ''),
    );
    const all = of.reduce((sum, rate) => sum + rate.jobs + rate.notEvaluated + rate.missing, 0);
    const judged = of.reduce((sum, rate) => sum + rate.jobs, 0);
    return {
      name: of[0].unit.name,
      off: Math.max(...of.map(offBy)),
      row: [of[0].unit.name, ...cells, percentText(all === 0 ? null : 1 - judged / all)],
    };
  });
  const shown = farthest(rows, ({ off }) => off).toSorted((a, b) => byName(a.name, b.name));
  return {
    heads: ['', ...flagged.map(({ skill }) => skill.title), 'not judged'],
    rows: shown.map(({ row }) => row),
    left: rows.length - shown.length,
  };
}

function cell({ found, jobs, ratio }: RateRow, mark: string): string {
  if (jobs === 0) return '–';
  const counts = `${found}/${jobs}`;
  if (jobs < fewJobs) return `(${counts})`;
  return `${counts} ×${timesText(ratio)}${mark}`;
}

/** The units farthest from what is expected, by name. */
export function rowsShown(units: readonly RateRow[]): { shown: readonly RateRow[]; left: number } {
  const some = units.filter(({ jobs, notEvaluated, missing }) => jobs + notEvaluated + missing > 0);
  const shown = farthest(some, offBy).toSorted((a, b) => byName(a.unit.name, b.unit.name));
  return { shown, left: some.length - shown.length };
}

/** A table of units: heads and a line a unit. Own odds only where they were looked for. */
export function rateTable(
  { kind, ownSpread }: RatesReport['groupings'][number],
  units: readonly RateRow[],
): { heads: string[]; rows: string[][] } {
  const hasOwn = ownSpread !== null;
  const own = ({ own: odds }: RateRow): string =>
    odds === null ? 'as all' : `${timesText(odds.ratio)} (${timesText(odds.low)}–${timesText(odds.high)})`;
  return {
    heads: [
      kind.replace('-', ' '),
      'judged',
      'found',
      'share',
      'believed',
      'expected',
      'times',
      'funnel',
      ...(hasOwn ? ['own odds'] : []),
      'not ev.',
      'no log',
    ],
    rows: units.map((rate) => [
      rate.unit.name,
      String(rate.jobs),
      String(rate.found),
      rangeText(rate.share, rate.low, rate.high),
      rate.shrunken === null ? '–' : rangeText(rate.shrunken.share, rate.shrunken.low, rate.shrunken.high),
      rate.jobs === 0 ? '–' : rate.expected.toFixed(1),
      rate.jobs < fewJobs ? '–' : timesText(rate.ratio),
      funnelText(rate),
      ...(hasOwn ? [rate.jobs === 0 ? '–' : own(rate)] : []),
      String(rate.notEvaluated),
      String(rate.missing),
    ]),
  };
}

/** Where the share lies beside what chance and usual differences make of it. */
function funnelText({ share, widened, jobs }: RateRow): string {
  if (share === null || widened === null) return '–';
  if (jobs < fewJobs) return 'too few';
  if (share > widened.high998) return 'above 99.8%';
  if (share > widened.high95) return 'above 95%';
  if (share < widened.low998) return 'below 99.8%';
  return share < widened.low95 ? 'below 95%' : 'within';
}

function rangeText(middle: number | null, low: number | null, high: number | null): string {
  if (middle === null || low === null || high === null) return '–';
  return `${percentText(middle)} (${Math.round(100 * low)}–${percentText(high).slice(0, -1)})`;
}

function timesText(ratio: number | null): string {
  if (ratio === null) return '–';
  return ratio < 9.95 ? ratio.toFixed(1) : String(Math.round(ratio));
}

/** How far off what is expected a unit is, in deviations by chance. */
function offBy({ found, expected, byChance }: RateRow): number {
  return byChance > 0 ? Math.abs(found - expected) / Math.sqrt(byChance) : 0;
}

function farthest<Row>(rows: readonly Row[], off: (row: Row) => number): Row[] {
  return rows.toSorted((a, b) => off(b) - off(a)).slice(0, mostRows);
}

function byName(a: string, b: string): number {
  return a.localeCompare(b, 'en', { numeric: true });
}
