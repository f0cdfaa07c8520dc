import { DryholdError } from '../errors.ts';
import type { JobEvidence } from '../pages/job-evidence-data.ts';
import { jobSummary } from '../pages/job-summary.ts';
import { namedId } from '../pages/named-id.ts';
import type { JudgedJob } from '../pages/job-page.ts';
import { sortedFindings } from '../pages/sorted-findings.ts';
import { durationText, gaugePressureText, type UnitSystem, vacuumText } from '../units/display.ts';
import { visibleText } from '../units/visible-text.ts';
import { type AddCommand, say, sayJson } from './context.ts';
import { holdLine } from './hold-line.ts';
import { addPageOptions, assertPageOptions, isPageAsked, type PageOutputOptions, writePage } from './page-output.ts';
import { datesOption, type ReaderOptions, readerOf } from './reader-option.ts';
import { sparkline } from './sparkline.ts';
import { withStore } from './with-store.ts';
import { textWidth, wrappedText } from './wrapped-text.ts';

type ShowCommandOptions = ReaderOptions & PageOutputOptions;

/** `dryhold show`: one job, with its evidence. */
export const addShow: AddCommand = (program) => {
  const command = program
    .command('show')
    .summary('one job with its evidence')
    .description(
      'Tells of one job what was found, what was measured, what it was held against, and where the limit comes from.',
    )
    .argument('<job>', 'id of the job');
  addPageOptions(command, 'the job with its recordings')
    .addOption(datesOption())
    .addHelpText(
      'after',
      '\nexamples:\n  dryhold show J-1042\n  dryhold show J-1042 --units si --html job.html\n  dryhold show J-1042 --pdf job.pdf            for the customer’s file',
    )
    .action(async (jobId: string, options: ShowCommandOptions) => {
      assertPageOptions(options);
      const { units, codes = false } = options;
      const { showJob } = await import('../steps/show-job.ts');
      const told = await withStore(options, 'read', (store) => showJob(store, jobId, { codes }));
      if (told === undefined) throw new DryholdError('unknown-job', { job: jobId, store: options.store });
      const job = told(units);
      if (isPageAsked(options)) {
        const { jobPage } = await import('../pages/job-page.ts');
        await writePage(jobPage(told, readerOf(options)), options);
      }
      if (options.json) sayJson(job);
      else if (!isPageAsked(options)) say(jobText(job, units));
    });
};

const words = {
  pass: 'pass',
  suspect: 'suspect',
  fail: 'FAIL',
  'not-evaluated': 'not evaluated',
  missing: 'missing',
} as const;

const closing =
  'These are logged readings held against limits; they do not say that a system is safe. A vacuum pulls with one atmosphere only: the leak test is the standing pressure test, and no test shows a leak smaller than it can see.';

function jobText(job: JudgedJob, units: UnitSystem): string {
  const { flagged, unjudged, passed } = sortedFindings(job);
  const lines = [
    visibleText(namedId('Job', job.jobId)),
    ...wrappedText(jobSummary(job)),
    `judged by the policy ${job.policyId}`,
    ...job.story.flatMap((paragraph) => ['', ...wrappedText(paragraph)]),
    '',
  ];
  if (flagged.length === 0) lines.push('No fail or suspect finding.', '');
  for (const { outcome, question, text, basis, teach } of flagged) {
    lines.push(
      ...labelled(words[outcome], question),
      ...wrappedText(basis === '' ? text : `${text} ${basis}`, indent),
      ...(teach === '' ? [] : wrappedText(`What to check: ${teach}`, indent)),
      '',
    );
  }
  for (const { outcome, text, questions } of unjudged)
    lines.push(...labelled(words[outcome], text), ...wrappedText(questions.join(' '), indent));
  if (unjudged.length > 0) lines.push('');
  for (const { question } of passed) lines.push(...labelled(words.pass, question));
  if (passed.length > 0) lines.push(...wrappedText('(--html or --json tells what each of these rests on)', indent), '');
  lines.push(...pressureText(job, units), ...traceText(job, units));
  lines.push('', ...wrappedText(closing));
  return lines.join('\n');
}

/** A text with a word in the margin of its first line. */
function labelled(word: string, text: string): string[] {
  const [first = '', ...rest] = wrappedText(text, indent);
  return [`${word.padEnd(indent.length)}${first.slice(indent.length)}`, ...rest];
}

const indent = ' '.repeat(15);
/** What a logarithm cannot show, 0 and below, stands as this [Pa]. */
const leastShownPa = 0.1;

function pressureText({ pressureTest }: JobEvidence, units: UnitSystem): string[] {
  if (pressureTest === null) return [];
  const { trace, atmospherePa, highestPa, holds, judged, limits } = pressureTest;
  const text = (pa: number) => gaugePressureText(pa, atmospherePa, units);
  const highest = highestPa === null ? '' : `, highest ${text(highestPa)}`;
  return [
    `pressure test over ${durationText(trace.elapsedS.at(-1) ?? 0)}${highest}`,
    ...holds.map(({ startS, endS }) => {
      const name = startS === judged?.startS ? 'judged hold' : 'hold';
      return `  ${name.padEnd(11)} from ${durationText(startS)} for ${durationText(endS - startS)}`;
    }),
    ...limits.map(({ label, pa }) => `  ${label}: ${text(pa)}`),
    ...holdLine(pressureTest, units, Math.min(72, textWidth())),
    '',
  ];
}

function traceText({ trace, phases, limits }: JobEvidence, units: UnitSystem): string[] {
  if (trace === null) return ['No vacuum recording came with this job.'];
  const finite = trace.vacuumPa.filter((pa): pa is number => pa !== null);
  const lines = [
    `vacuum over ${durationText((trace.elapsedS.at(-1) ?? 0) - trace.elapsedS[0])}, log scale, ${finite.length === 0 ? 'always over range' : `lowest ${vacuumText(Math.min(...finite), units)}`}`,
    sparkline(
      trace.elapsedS,
      trace.vacuumPa.map((pa) => (pa === null ? Number.NaN : Math.log(Math.max(pa, leastShownPa)))),
      Math.min(72, textWidth()),
    ),
  ];
  for (const { phase, startS, endS } of phases)
    lines.push(`  ${phase.padEnd(10)} from ${durationText(startS)} for ${durationText(endS - startS)}`);
  for (const { label, pa } of limits) lines.push(`  ${label}: ${vacuumText(pa, units)}`);
  return lines;
}
