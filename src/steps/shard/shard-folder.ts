import { existsSync, mkdirSync, readdirSync, renameSync, rmdirSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { DryholdError } from '../../errors.ts';
import { isAside } from '../../store/aside-folder.ts';
import { keepOnDisk, writeWholeText } from '../../store/whole-file.ts';
import {
  type ListedShard,
  readShardDescription,
  shardFormat,
  shardListName,
  shardName,
  undated,
} from './shard-description.ts';

const monthName = new RegExp(`^(\\d{4}-\\d{2}|${undated})$`);

/** The list while a run writes it. */
const listAside = /^shards\.json\.\d+\.part$/;

/** A folder of shards, `<month>/<range>`, with a list of them. */
export class ShardFolder {
  readonly #path: string;
  /** The shards that lie there, whether an earlier run came to its end or not. */
  readonly #found: readonly string[];

  private constructor(path: string, found: readonly string[]) {
    this.#path = path;
    this.#found = found;
  }

  /**
   * Opens a folder that shards are to come into; it need not be there.
   *
   * @throws DryholdError `bad-usage` where it holds something else, and no list of shards
   */
  static open(path: string): ShardFolder {
    const names = existsSync(path) ? readdirSync(path).filter((name) => !isAside(name) && !listAside.test(name)) : [];
    const found = names.flatMap((name) => shardsIn(path, name));
    // A month may be empty yet, or still.
    const isStrange = (name: string) =>
      !found.some((folder) => dirname(folder) === name) &&
      !(monthName.test(name) && readdirSync(join(path, name)).length === 0);
    if (!names.includes(shardListName) && names.some(isStrange))
      throw new DryholdError('bad-usage', {
        problem: `${path} holds files that are no shards, and shards would replace what lies there; give --out another folder`,
      });
    return new ShardFolder(path, found);
  }

  /**
   * Makes sure that nothing else lies where shards are to come.
   *
   * @throws DryholdError `bad-usage`
   */
  assertFree(folders: readonly string[]): void {
    const taken = folders.find((folder) => !this.#found.includes(folder) && existsSync(join(this.#path, folder)));
    if (taken !== undefined)
      throw new DryholdError('bad-usage', {
        problem: `${join(this.#path, taken)} is in the way, and is no shard; remove it, or give --out another folder`,
      });
  }

  /**
   * Gives shards that are whole their places, removes those that are no more, and lists what lies there then: another run may have written
   * another month meanwhile.
   *
   * @param aside the folder that they lie in, within this one
   * @param month the only month that they are of; absent: they are all there are
   */
  async take(aside: string, shards: readonly ListedShard[], month: string | undefined): Promise<void> {
    const others = this.#found.filter((found) => !shards.some(({ folder }) => folder === found));
    const isGone = (folder: string) => month === undefined || dirname(folder) === month;
    for (const [index, { folder }] of shards.entries()) {
      const place = join(this.#path, folder);
      mkdirSync(dirname(place), { recursive: true });
      if (existsSync(place)) renameSync(place, join(aside, `replaced-${index}`));
      renameSync(join(aside, folder), place);
      keepOnDisk(dirname(place));
    }
    for (const folder of others.filter(isGone)) {
      rmSync(join(this.#path, folder), { recursive: true, force: true });
      removeIfEmpty(join(this.#path, dirname(folder)));
    }
    await this.#writeList();
  }

  /** A run that looked earlier may have written its list later: whoever wrote last looks again. */
  async #writeList(): Promise<void> {
    let list = this.#list();
    let written: string;
    do {
      written = list;
      await writeWholeText(join(this.#path, shardListName), written);
      list = this.#list();
    } while (list !== written);
  }

  #list(): string {
    const names = readdirSync(this.#path).sort();
    const shards = names.flatMap((name) => shardsIn(this.#path, name)).flatMap((folder) => this.#listed(folder));
    return `${JSON.stringify({ format: shardFormat, shards }, null, 2)}\n`;
  }

  /** None where another run replaces it just now. */
  #listed(folder: string): ListedShard[] {
    const path = join(this.#path, folder);
    try {
      const { jobs, readings } = readShardDescription(path);
      return [{ folder, jobs, readings }];
    } catch (error) {
      if (existsSync(join(path, shardName))) throw error;
      return [];
    }
  }
}

/** The shards in the folder of a month, sorted. */
function shardsIn(path: string, month: string): string[] {
  if (!monthName.test(month) || !existsSync(join(path, month))) return [];
  return readdirSync(join(path, month))
    .sort()
    .filter((range) => /^\d+-\d+$/.test(range) && existsSync(join(path, month, range, shardName)))
    .map((range) => `${month}/${range}`);
}

function removeIfEmpty(folder: string): void {
  try {
    rmdirSync(folder);
  } catch {
    // Something lies there, or it is gone.
  }
}
