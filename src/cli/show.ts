import { writeFileSync } from 'node:fs';
import { DryholdError } from '../errors.ts';
import type { JobEvidence } from '../pages/service-manager-data.ts';
import { renderJobPage } from '../pages/job-page.ts';
import { showJob } from '../steps/show-job.ts';
import { durationText, type UnitSystem, vacuumText } from '../units/display.ts';
import { type AddCommand, type CommonOptions, say, sayJson } from './context.ts';
import { sparkline } from './sparkline.ts';
import { withStore } from './with-store.ts';

interface ShowCommandOptions extends CommonOptions {
  readonly html?: string;
}

/** `dryhold show`: one job, with its evidence. */
export const addShow: AddCommand = (program) => {
  program
    .command('show')
    .summary('one job with its evidence')
    .description(
      'Tells of one job what was found, what was measured, what it was held against, and where the limit comes from.',
    )
    .argument('<job>', 'id of the job')
    .option('--html <file>', 'write a page with the recording instead')
    .addHelpText('after', '\nexamples:\n  dryhold show J-0001\n  dryhold show J-0001 --units si --html job.html')
    .action(async (jobId: string, options: ShowCommandOptions) => {
      const { units, codes = false } = options;
      const job = await withStore(options.store, 'read', (store) => showJob(store, jobId, { units, codes }));
      if (job === undefined) throw new DryholdError('unknown-job', { job: jobId, store: options.store });
      if (options.html !== undefined) {
        writeFileSync(options.html, await renderJobPage(job, units));
        if (!options.json) say(options.html);
      }
      if (options.json) sayJson(job);
      else if (options.html === undefined) say(jobText(job, units));
    });
};

const words = {
  pass: 'pass',
  suspect: 'suspect',
  fail: 'FAIL',
  'not-evaluated': 'not judged',
  missing: 'no data',
} as const;

function jobText(job: JobEvidence, units: UnitSystem): string {
  const lines = [
    `Job ${job.jobId}${job.startedAt === '' ? '' : `, ${job.startedAt}`}`,
    [job.workType, job.refrigerant, job.systemId && `system ${job.systemId}`, job.siteId && `site ${job.siteId}`]
      .filter(Boolean)
      .join(', '),
    `by ${job.technician}${job.crewId === null ? '' : `, crew ${job.crewId}`}`,
    '',
  ];
  for (const finding of job.findings) {
    lines.push(
      `${words[finding.outcome].padEnd(11)} ${finding.question}`,
      `            ${finding.text}${finding.basis === '' ? '' : ` ${finding.basis}`}`,
    );
    if (finding.outcome === 'fail' || finding.outcome === 'suspect') lines.push(`            ${finding.teach}`);
  }
  if (job.trace !== null) lines.push('', ...traceText(job, units));
  lines.push('', 'These are logged readings held against limits; they do not say that a system is safe.');
  return lines.filter((line, index) => line !== '' || lines[index - 1] !== '').join('\n');
}

function traceText({ trace, phases, limits }: JobEvidence, units: UnitSystem): string[] {
  if (trace === null) return [];
  const finite = trace.vacuumPa.filter((pa): pa is number => pa !== null);
  const lines = [
    `vacuum over ${durationText((trace.elapsedS.at(-1) ?? 0) - trace.elapsedS[0])}, log scale, ${finite.length === 0 ? 'always over range' : `lowest ${vacuumText(Math.min(...finite), units)}`}`,
    sparkline(
      trace.elapsedS,
      trace.vacuumPa.map((pa) => (pa === null ? Number.NaN : Math.log(pa))),
      72,
    ),
  ];
  for (const { phase, startS, endS } of phases)
    lines.push(`  ${phase.padEnd(10)} from ${durationText(startS)} for ${durationText(endS - startS)}`);
  for (const { label, pa } of limits) lines.push(`  ${label}: ${vacuumText(pa, units)}`);
  return lines;
}
