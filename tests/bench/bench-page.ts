import { textTable } from '../../src/cli/text-table.ts';
import { type BenchRow, type Goal, meetsGoal } from './bench-row.ts';

const heads = ['what', 'readings', 'seconds', 'CPU s', 'rows/s', 'peak MiB', 'ratio', 'goal', ''];

/** The table for the terminal. */
export function benchTable(rows: readonly BenchRow[]): string {
  return textTable(heads, rows.map(cells), { right: [1, 2, 3, 4, 5, 6, 7] });
}

/** The same as one page. */
export function benchPage(rows: readonly BenchRow[], machine: string, how: readonly string[]): string {
  const line = (texts: readonly string[]) => `| ${texts.join(' | ')} |`;
  const missed = rows.filter((row) => meetsGoal(row) === false).length;
  const met = rows.filter((row) => meetsGoal(row) === true).length;
  return [
    '# How fast it is',
    '',
    `Measured in one run, everything side by side. ${machine}.`,
    '',
    `Of ${met + missed} goals ${met} are met and ${missed} missed.`,
    '',
    line(heads),
    `|${heads.map((_, at) => (at > 0 && at < 8 ? '--:' : '---')).join('|')}|`,
    ...rows.map((row) => line(cells(row))),
    '',
    ...how.flatMap((sentence) => [sentence, '']),
  ].join('\n');
}

function cells(row: BenchRow): string[] {
  const { what, readings, seconds, cpuSeconds, rowsPerS, peakMiB, ratio, goal, skipped } = row;
  const met = meetsGoal(row);
  return [
    what,
    readings === undefined ? '' : millions(readings),
    figure(seconds),
    figure(cpuSeconds),
    rowsPerS === undefined ? '' : millions(rowsPerS),
    peakMiB === undefined ? '' : peakMiB.toFixed(0),
    figure(ratio),
    goal === undefined ? '' : goalText(goal),
    skipped === undefined ? (met === undefined ? '' : met ? 'met' : 'MISSED') : `skipped: ${skipped}`,
  ];
}

function figure(value: number | undefined): string {
  if (value === undefined) return '';
  return value >= 100 ? value.toFixed(0) : value >= 10 ? value.toFixed(1) : value.toFixed(2);
}

function millions(value: number): string {
  return value >= 99_500 ? `${figure(value / 1e6)} M` : value.toFixed(0);
}

function goalText({ figure: of, atLeast, atMost }: Goal): string {
  const bound = atLeast ?? atMost ?? 0;
  const text =
    of === 'rowsPerS'
      ? `${bound / 1e6} M/s`
      : of === 'peakMiB'
        ? `${bound} MiB`
        : of === 'seconds'
          ? `${bound} s`
          : `${bound}`;
  return `${atLeast === undefined ? '≤' : '≥'} ${text}`;
}
