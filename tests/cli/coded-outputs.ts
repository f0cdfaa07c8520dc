import { readdirSync, readFileSync } from 'node:fs';
import { expect } from 'vitest';
import { columnsOf } from '../../src/records/table.ts';
import { inputTables, outputTables } from '../../src/records/tables.ts';

/**
 * What a store gives out with `--codes`: every table that tells of people or holds free text, every page of a report, and a job in each form; each with
 * what it is.
 *
 * @param run runs the command beside the store
 * @param at a path beside it
 */
export function codedOutputs(
  run: (...args: string[]) => { readonly stdout: string },
  at: (...parts: string[]) => string,
): (readonly [what: string, text: string])[] {
  // Every table that tells of people or holds free text.
  const tables = [...outputTables, ...inputTables].filter((table) =>
    columnsOf(table).some(({ name }) =>
      /technician|display_name|note|reason|reviewed_by|evidence|cause_found/.test(name),
    ),
  );
  const texts = tables
    .filter(({ name }) => name !== 'rejects')
    .map(({ name }) => [name, run('export', name, '--codes').stdout] as const);
  expect(texts.map(([name]) => name)).toEqual(
    expect.arrayContaining(['findings', 'people', 'memberships', 'trainings', 'jobs', 'callbacks', 'reviews']),
  );
  run('report', '--codes', '--out', 'coded');
  const pages = readdirSync(at('coded'), { recursive: true })
    .map(String)
    .filter((name) => name.endsWith('.html'));
  expect(pages).toEqual(
    expect.arrayContaining(['index', 'service-manager', 'trainer', 'owner'].map((name) => `${name}.html`)),
  );
  expect(pages.length).toBeGreaterThan(10);
  // A page is named after whom it is about.
  const outputs: (readonly [string, string])[] = [
    ...texts,
    ['names of pages', pages.join('\n')] as const,
    ...pages.map((name) => [`report: ${name}`, readFileSync(at('coded', name), 'utf8')] as const),
    ['show', run('show', 'job-000001', '--codes').stdout] as const,
    ['show --json', run('show', 'job-000001', '--codes', '--json').stdout] as const,
  ];
  run('show', 'W-101', '--codes', '--html', 'coded.html');
  outputs.push(['show --html', readFileSync(at('coded.html'), 'utf8')]);
  return outputs;
}
