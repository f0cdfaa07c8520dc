import { cpSync, existsSync, mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { DryholdError } from '../../src/errors.ts';
import { Random } from '../../src/numerics/random.ts';
import { Store } from '../../src/store/store.ts';
import { drawMoment, killAt, momentText, runWhole } from './killed-command.ts';
import type { StoreCommand } from './store-command.ts';
import { type Contents, contentsOf, differencesOf, leftoversOf, lookInto } from './store-contents.ts';

/** A command of the sequence, and how long it takes alone: as measured last. */
type TimedCommand = StoreCommand & { ms: number };

/** The sequence, run without disturbance: each command's time, the store before it, and what each left. */
export interface Undisturbed {
  readonly commands: readonly TimedCommand[];
  readonly folder: string;
  /** What the store holds before each command, and after the last one. */
  readonly contents: readonly Contents[];
}

/** What came of one kill. */
export interface KillResult {
  readonly command: string;
  readonly moment: string;
  /** Whether the signal ended the command. */
  readonly hit: boolean;
  /** What is not as it should be; nothing where all is equal. */
  readonly problems: readonly string[];
}

/** The statuses of a command that did its work, with something refused or without. */
const done: readonly (number | null)[] = [0, 1];

/** Runs the sequence to its end, and keeps the store as it was before each command. */
export async function undisturbed(folder: string, commands: readonly StoreCommand[]): Promise<Undisturbed> {
  mkdirSync(folder, { recursive: true });
  const store = join(folder, 'store');
  const contents = [await contentsOfNew(join(folder, 'new'))];
  const timed: TimedCommand[] = [];
  for (const [index, command] of commands.entries()) {
    if (existsSync(store)) cpSync(store, before(folder, index), { recursive: true });
    const { status, stderr, ms } = runWhole([...command.args, '--store', store]);
    if (!done.includes(status)) throw new Error(`${command.name} ended with status ${status}: ${stderr}`);
    timed.push({ ...command, ms });
    contents.push(await contentsOf(store));
  }
  const leftovers = await leftoversOf(store);
  if (leftovers.length > 0) throw new Error(`the undisturbed run leaves ${leftovers.join(', ')}`);
  return { commands: timed, folder, contents };
}

/** What a store holds in which nothing was ever taken. */
async function contentsOfNew(folder: string): Promise<Contents> {
  await (await Store.open(folder, 'write')).close();
  return contentsOf(folder);
}

function before(folder: string, index: number): string {
  return join(folder, `before-${index}`);
}

/** Which command each of so many points kills: as often as it lasts long, and each at least once in a while. */
export function commandsToKill({ commands }: Undisturbed, points: number): number[] {
  const weights = commands.map(({ ms }) => ms);
  const whole = weights.reduce((sum, ms) => sum + ms, 0);
  const shares = weights.map((ms) => 0.5 / commands.length + (0.5 * ms) / whole);
  let upTo = 0;
  const ends = shares.map((share) => (upTo += share));
  return Array.from({ length: points }, (_, index) => {
    const at = (index + 0.5) / points;
    return Math.max(
      0,
      ends.findIndex((end) => at < end),
    );
  });
}

/**
 * Kills one command of the sequence, looks into the store, runs the same command again, and compares with the undisturbed run.
 *
 * @param point numbers the kill: seed and number give its moment
 * @param goOn whether the commands that follow are run, too, and their end is compared
 * @param isQuick whether the second run is within this process: what it does is the same, and no start is waited for
 */
export async function killOnce(
  run: Undisturbed,
  index: number,
  { seed, point, goOn, isQuick = false }: { seed: number; point: number; goOn: boolean; isQuick?: boolean },
): Promise<KillResult> {
  const command = run.commands[index];
  const { endless } = command;
  const moment = drawMoment(new Random(seed, point + 2), command.ms + (endless?.waitsMs ?? 0));
  const store = join(run.folder, 'killed');
  rmSync(store, { recursive: true, force: true });
  if (existsSync(before(run.folder, index))) cpSync(before(run.folder, index), store, { recursive: true });
  const hit = await killAt([...(endless?.args ?? command.args), '--store', store], store, moment);
  const problems: string[] = [];
  problems.push(...(await seenAfterKill(run, index, store)));
  if (isQuick) await command.inProcess(store);
  else {
    const { status, stderr, ms } = runWhole([...command.args, '--store', store]);
    // A busy machine takes now this long, now that; where the command had done all before the kill, little is left to do.
    if (hit) command.ms = (command.ms + ms) / 2;
    if (!done.includes(status)) problems.push(`a second run ends with status ${status}: ${stderr.trim()}`);
  }
  let reached = index + 1;
  if (goOn) for (; reached < run.commands.length; reached += 1) await run.commands[reached].inProcess(store);
  if (problems.length === 0) {
    problems.push(...differencesOf(await contentsOf(store), run.contents[reached]));
    problems.push(...(await leftoversOf(store)).map((name) => `left over: ${name}`));
  }
  return { command: command.name, moment: momentText(moment), hit, problems };
}

/** What is wrong with a store just after a kill: it can be read, and of what becomes known at once there is all or nothing. */
async function seenAfterKill(run: Undisturbed, index: number, store: string): Promise<string[]> {
  try {
    if (!run.commands[index].isAtOnce) return await lookInto(store).then(() => []);
    const seen = await contentsOf(store);
    const [none, all] = [differencesOf(seen, run.contents[index]), differencesOf(seen, run.contents[index + 1])];
    return none.length === 0 || all.length === 0 ? [] : all.map((difference) => `half of it is known: ${difference}`);
  } catch (error) {
    // Before the first command made a store there is none.
    if (!existsSync(before(run.folder, index)) && (error as DryholdError).code === 'store-missing') return [];
    return [`cannot be looked at: ${(error as Error).message}`];
  }
}
