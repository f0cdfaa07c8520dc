import { spawnSync } from 'node:child_process';
import { afterAll, expect, test } from 'vitest';
import { completionScript } from '../../src/cli/completion-script.ts';
import { parseRefrigerant, refrigerantDesignations } from '../../src/physics/index.ts';
import { inputTables, outputTables } from '../../src/records/tables.ts';
import { dryhold, temporaryFolder } from './dryhold-process.ts';

const script = dryhold(['completion', 'bash']);
const help = dryhold(['--help']).stdout;
const folder = temporaryFolder();
afterAll(() => folder.remove());

/** What bash would offer, without any package of completions, for each line whose last word is being typed. */
function offered(lines: readonly (readonly string[])[]): string[][] {
  const tries = lines.map((words) => `try dryhold ${words.map((word) => `'${word}'`).join(' ')}`).join('\n');
  const bash = `${script.stdout}
try() { COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); COMPREPLY=(); _dryhold; echo "\${COMPREPLY[*]}"; }
${tries}`;
  const { status, stdout, stderr } = spawnSync('bash', ['--norc', '-u', '-c', bash], {
    cwd: folder.path,
    encoding: 'utf8',
  });
  expect([status, stderr]).toEqual([0, '']);
  return stdout
    .split('\n')
    .slice(0, -1)
    .map((line) => line.split(' ').filter((word) => word !== ''));
}

test('bash completes every command that the help lists, options, choices and closed lists', () => {
  expect([script.status, script.stderr]).toEqual([0, '']);
  const commands = [...help.matchAll(/^ {2}([a-z]+) \[/gm)].map(([, name = '']) => name);
  const tables = [...outputTables, ...inputTables].map(({ name }) => name);
  const answers = offered([
    [''],
    ['ex'],
    ['export', ''],
    ['export', 'find'],
    ['export', 'facts', ''],
    ['export', '--format', ''],
    ['export', '--format', '=', 'pa'],
    ['export', '--format', '='],
    ['export', '--format', '=', 'csv', 'facts', '--o'],
    ['export', '--format', 'csv', '--out', 'facts', 'fact'],
    ['saturation', ''],
    ['saturation', 'R-454', ''],
    ['plan', '--refrigerant', 'R-45'],
    ['fleet', 'rise', 'hold-s'],
    ['help', 'cal'],
    ['completion', ''],
    ['show', 'J-1', '--'],
    ['ingest', ''],
    ['demo', '--sto'],
    ['nonsense', ''],
  ]);
  expect(answers).toEqual([
    [...commands, '--help', '--version'],
    ['export'],
    tables,
    ['findings'],
    [],
    ['csv', 'ndjson', 'parquet', 'arrow'],
    ['parquet'],
    ['csv', 'ndjson', 'parquet', 'arrow'],
    ['--out'],
    ['facts'],
    expect.arrayContaining(['R-410A', 'water']),
    [],
    refrigerantDesignations.filter((name) => name.startsWith('R-45')),
    ['hold-short'],
    ['callbacks'],
    ['bash', 'zsh', 'fish'],
    expect.arrayContaining(['--html', '--store', '--json', '--help']),
    [],
    [],
    [],
  ]);
  const refrigerants = (answers[10] ?? []).filter((name) => name !== 'water');
  expect(refrigerants.map((name) => parseRefrigerant(name).designation)).toEqual(refrigerantDesignations);
});

test('every word that is offered is one word to a shell', () => {
  const lists = [...script.stdout.matchAll(/(?:names|values|flags|offered)='([^']*)'/g)].map(([, words = '']) => words);
  expect(lists.length).toBeGreaterThan(20);
  for (const word of lists
    .filter((list) => list !== '')
    .join(' ')
    .split(' '))
    expect(word).toMatch(/^(--)?[A-Za-z0-9_]+(-[A-Za-z0-9]+)*$/);
});

test('fish gets texts word for word, a value with a list no files, one without them', () => {
  const option = { about: "a crew's \\ own", takesValue: true };
  const script = completionScript('fish', [
    {
      name: 'fleet',
      about: 'who',
      choices: ['rise'],
      repeats: false,
      options: [
        { ...option, flag: '--out', choices: [] },
        { ...option, flag: '--units', choices: ['ip', 'si'] },
      ],
    },
  ]);
  expect(script.split('\n').slice(1)).toEqual([
    "complete -c dryhold -n __fish_use_subcommand -f -a fleet -d 'who'",
    "complete -c dryhold -n '__fish_seen_subcommand_from fleet; and not __fish_seen_subcommand_from rise' -f -a 'rise'",
    "complete -c dryhold -n '__fish_seen_subcommand_from fleet' -l out -r -F -d 'a crew\\'s \\\\ own'",
    "complete -c dryhold -n '__fish_seen_subcommand_from fleet' -l units -x -a 'ip si' -d 'a crew\\'s \\\\ own'",
    '',
  ]);
});

test('zsh loads what bash does, and what that needs', () => {
  const { status, stdout } = dryhold(['completion', 'zsh']);
  expect(status).toBe(0);
  expect(stdout).toContain('autoload -Uz bashcompinit && bashcompinit\n');
  expect(stdout.endsWith(script.stdout)).toBe(true);
});
