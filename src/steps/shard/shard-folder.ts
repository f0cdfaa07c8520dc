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
    const names = existsSync(path) ? readdirSync(path).filter((name) => !isAside(name)) : [];
    const found = names.flatMap((name) => shardsIn(path, name));
    const isStrange = (name: string) => !found.some((folder) => dirname(folder) === name);
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
   * Gives shards that are whole their places, removes those that are no more, and lists what there is.
   *
   * @param aside the folder that they lie in, within this one
   * @param month the only month that they are of; absent: they are all there are
   */
  async take(aside: string, shards: readonly ListedShard[], month: string | undefined): Promise<void> {
    const others = this.#found.filter((found) => !shards.some(({ folder }) => folder === found));
    const isGone = (folder: string) => month === undefined || dirname(folder) === month;
    const kept = others.filter((folder) => !isGone(folder)).map((folder) => this.#listed(folder));
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
    const sorted = [...kept, ...shards].sort((a, b) => (a.folder < b.folder ? -1 : 1));
    const list = { format: shardFormat, shards: sorted };
    await writeWholeText(join(this.#path, shardListName), `${JSON.stringify(list, null, 2)}\n`);
  }

  #listed(folder: string): ListedShard {
    const { jobs, readings } = readShardDescription(join(this.#path, folder));
    return { folder, jobs, readings };
  }
}

/** The shards in the folder of a month. */
function shardsIn(path: string, month: string): string[] {
  if (!monthName.test(month)) return [];
  return readdirSync(join(path, month))
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
