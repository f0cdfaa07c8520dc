import { claimCells } from './accuracy-table.ts';
import { type ToldClaim, worstLines } from './told-claim.ts';
import type { ToldPart } from './told-part.ts';

/** How, when and on what the parts were run. */
export interface TruthPageOptions {
  /** The command that makes the page again. */
  readonly command: string;
  /** ISO 8601. */
  readonly date: string;
  readonly size: string;
  readonly seed: number;
  readonly machine: readonly string[];
}

/** Cases listed of a claim that missed its goal, and lines of the whole page: with more of them fewer cases are listed. */
const [mostCases, mostLines] = [10, 1500];

/** All that was measured as one Markdown page: what was missed first, then part by part the claims and the worst cases. */
export function truthPage(parts: readonly ToldPart[], options: TruthPageOptions): string {
  for (let most = mostCases; ; most -= 1) {
    const page = pageOf(parts, options, most);
    if (most <= 1 || page.split('\n').length < mostLines) return page;
  }
}

function pageOf(parts: readonly ToldPart[], options: TruthPageOptions, most: number): string {
  const blocks = [
    '# How near it comes to the truth, claim by claim',
    `<!-- Written by \`${options.command}\`; what is changed by hand is lost. -->`,
    [
      'Every claim of the product beside a known truth: drawn jobs, fleets and cylinders, of which is known what was true. What is drawn, and how,',
      'is told [beside the tests](../tests/truth/README.md); what it means for a reader in [how well it finds things](how-well-it-finds-things.md).',
      'Shares stand with their 95 % interval. Goals were set by earlier work; a claim without one is only measured. Where a column *not told* stands,',
      'it counts the cases of which the product says that it cannot tell: they are not counted as right. Of every claim the worst case is listed, of',
      `one that missed its goal the worst ${most}: by seed and number the same case is drawn again.`,
    ].join('\n'),
    [
      `- ${options.date}, size ${options.size}, seed ${options.seed}: \`${options.command}\``,
      ...options.machine.map((line) => `- ${line}`),
    ].join('\n'),
    ...summary(parts),
    ...parts.flatMap((part) => section(part, most)),
  ];
  return `${blocks.join('\n\n')}\n`;
}

function summary(parts: readonly ToldPart[]): string[] {
  const rows = parts.map(({ title, claims, seconds }) => [
    `[${title}](#${headingId(title)})`,
    ...counts(claims).map(String),
    `${seconds.toFixed(0)} s`,
  ]);
  const all = counts(parts.flatMap(({ claims }) => claims)).map(String);
  const missed = parts.flatMap(({ title, claims }) =>
    claims
      .filter(({ met }) => met === false)
      .map(
        ({ name, measured, goal, cases, mayBeChance }) =>
          `- ${title}: ${escaped(name)}: ${measured}, goal ${goal}, n ${cases}${mayBeChance ? '; the interval reaches the goal' : ''}`,
      ),
  );
  return [
    '## In short',
    table(['part', 'claims', 'with a goal', 'met', 'missed', 'took'], [...rows, ['all', ...all, '']]),
    missed.length === 0 ? 'No goal is missed.' : `Missed:\n\n${missed.join('\n')}`,
  ];
}

/** Claims, those with a goal that could be asked, met, missed. */
function counts(claims: readonly ToldClaim[]): number[] {
  const [met, missed] = [true, false].map((is) => claims.filter((one) => one.met === is).length);
  return [claims.length, met + missed, met, missed];
}

function section({ title, drawn, claims, tables, notes }: ToldPart, most: number): string[] {
  const { heads, rows } = claimCells(claims);
  // Of goals that are met, and of what has none, only cases of which there is something to say.
  const against = claims.filter(({ met, worst }) => worst.some(({ says }) => met === false || says !== ''));
  return [
    `## ${title}`,
    `Drawn: ${drawn}.`,
    table(heads, rows),
    ...tables.flatMap((one) => [`${one.title}:`, table(one.heads, one.rows)]),
    ...(notes.length === 0 ? [] : [notes.map((note) => `- ${note}`).join('\n')]),
    ...(against.length === 0
      ? []
      : [`### Worst cases: ${title.toLowerCase()}`, against.map((claim) => worstOf(claim, most)).join('\n')]),
  ];
}

function worstOf(claim: ToldClaim, most: number): string {
  const head = `- ${escaped(claim.name)} (${claim.against} of ${claim.cases})`;
  const lines = worstLines({ worst: claim.worst.slice(0, claim.met === false ? most : 1) }).map(escaped);
  return claim.met === false
    ? [head, ...lines.map((line) => `  - ${line}`)].join('\n')
    : `${head}: ${lines.join('; ')}`;
}

function table(heads: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]): string => `| ${cells.map(escaped).join(' | ')} |`;
  return [line(heads), `|${heads.map(() => '---').join('|')}|`, ...rows.map(line)].join('\n');
}

/** What Markdown would read as something else. */
function escaped(text: string): string {
  return text.replaceAll('\\', '\\\\').replaceAll('|', '\\|').replaceAll('<', '&lt;').replaceAll('*', '\\*');
}

/** A heading as links name it. */
function headingId(title: string): string {
  return title
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N} -]/gu, '')
    .replaceAll(' ', '-');
}
