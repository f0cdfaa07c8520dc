import { cpSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Random } from '../../src/numerics/random.ts';
import { killAt, momentText, runWhole } from './killed-command.ts';

/** A command that writes a file, or a folder of files. */
export interface Output {
  readonly name: string;
  readonly args: readonly string[];
  /** Writes something else to the same place, which is there before. */
  readonly before: readonly string[];
  readonly out: string;
  /** Whether it takes long. */
  readonly isLong?: boolean;
  /** What it writes that may be half written and is no file by itself, such as a demo's store. */
  readonly isOwn?: (name: string) => boolean;
}

/** The commands that write files, over a judged store, each into a folder of its own. */
export function outputsOf(folder: string, store: string): Output[] {
  const to = (name: string) => join(folder, 'outputs', name, 'out');
  const of = (name: string, args: string[], before: string[]): Output => {
    const out = to(name);
    const whole = (given: string[]) => given.map((part) => (part === 'OUT' ? out : part));
    return { name, args: [...whole(args), '--store', store], before: [...whole(before), '--store', store], out };
  };
  const other = ['export', 'jobs', '--out', 'OUT'];
  return [
    of('export csv', ['export', 'readings', '--out', 'OUT'], other),
    of('export arrow', ['export', 'readings', '--format', 'arrow', '--out', 'OUT'], other),
    of('shard', ['shard', '--out', 'OUT'], ['shard', '--jobs-per-shard', '2', '--out', 'OUT']),
    of('rejects', ['rejects', '--out', 'OUT'], other),
    of('report', ['report', '--out', 'OUT'], ['report', '--units', 'si', '--out', 'OUT']),
    of(
      'simulate',
      ['simulate', '--jobs', '30', '--out', 'OUT'],
      ['simulate', '--jobs', '10', '--seed', '2', '--out', 'OUT'],
    ),
    {
      ...of('demo', ['demo', '--out', 'OUT'], ['demo', '--units', 'si', '--out', 'OUT']),
      isLong: true,
      isOwn: (name) => name.startsWith('store'),
    },
  ];
}

/** What an output's folder holds before, and after an undisturbed run; how long that takes. */
interface Wanted {
  readonly olds: string;
  readonly old: ReadonlyMap<string, Buffer>;
  readonly fresh: ReadonlyMap<string, Buffer>;
  readonly ms: number;
}

const wantedOf = new Map<string, Wanted>();

function wanted(output: Output): Wanted {
  const folder = dirname(output.out);
  const known = wantedOf.get(folder);
  if (known !== undefined) return known;
  const olds = `${folder}-old`;
  written(output.before, emptied(folder));
  const old = filesOf(folder, output);
  cpSync(folder, olds, { recursive: true });
  const ms = written(output.args, folder);
  const made = { olds, old, fresh: filesOf(folder, output), ms };
  wantedOf.set(folder, made);
  return made;
}

function written(args: readonly string[], folder: string): number {
  const { status, stderr, ms } = runWhole(args);
  if (status !== 0) throw new Error(`${folder}: ${args[0]} ends with status ${status}: ${stderr}`);
  return ms;
}

/** Kills a command that writes over what an earlier one wrote, looks at what is there, and runs it again. */
export async function killOutput(
  output: Output,
  random: Random,
): Promise<{ moment: string; hit: boolean; problems: string[] }> {
  const folder = dirname(output.out);
  const { olds, old, fresh, ms } = wanted(output);
  cpSync(olds, emptied(folder), { recursive: true });
  const moment = { after: 'start', ms: ms * random.uniform() } as const;
  const hit = await killAt(output.args, folder, moment);
  const problems = [...filesOf(folder, output)]
    .filter(([name, bytes]) => !isUnfinished(name) && ![old, fresh].some((each) => each.get(name)?.equals(bytes)))
    .map(([name]) => `${name} is neither the old one nor the new`);
  written(output.args, folder);
  const now = filesOf(folder, output);
  for (const name of new Set([...now.keys(), ...fresh.keys()])) {
    const [is, should] = [now.get(name), fresh.get(name)];
    if (is === undefined || should === undefined || !is.equals(should))
      problems.push(`${name} is ${should === undefined ? 'left over' : 'not as it should be'} after a second run`);
  }
  return { moment: momentText(moment), hit, problems };
}

/** Names that say that what they name is not whole. */
function isUnfinished(name: string): boolean {
  return /\.part$|(^|\/)\.unfinished-/.test(name);
}

function emptied(folder: string): string {
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  return folder;
}

/** The files below a folder, by path. */
function filesOf(folder: string, { isOwn = () => false }: Output): Map<string, Buffer> {
  return new Map(
    readdirSync(folder, { recursive: true })
      .map(String)
      .filter((name) => statSync(join(folder, name)).isFile() && !isOwn(name.replace(/^out\//, '')))
      .map((name) => [name, readFileSync(join(folder, name))]),
  );
}
