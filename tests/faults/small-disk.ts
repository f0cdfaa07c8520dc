import { spawnSync } from 'node:child_process';
import { closeSync, mkdirSync, openSync, rmSync, statfsSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';

/** A small file system of its own, which can be filled. */
export class SmallDisk {
  readonly folder: string;
  readonly #filler: string;

  private constructor(folder: string) {
    this.folder = folder;
    this.#filler = join(folder, 'filler');
  }

  /** Mounts one for as long as the test runs, or gives why it cannot. */
  static mount(folder: string, megabytes: number): SmallDisk | string {
    mkdirSync(folder, { recursive: true });
    const { status, stderr } = spawnSync('mount', ['-t', 'tmpfs', '-o', `size=${megabytes}m`, 'tmpfs', folder], {
      encoding: 'utf8',
    });
    if (status !== 0) return `cannot mount a small disk: ${stderr ?? 'no mount command'}`;
    onTestFinished(() => {
      spawnSync('umount', ['-l', folder]);
    });
    return new SmallDisk(folder);
  }

  /** Fills it until only so much is left [bytes]. */
  fill(leftBytes: number): void {
    this.empty();
    const { bavail, bsize } = statfsSync(this.folder);
    const file = openSync(this.#filler, 'w');
    const block = Buffer.alloc(bsize, 1);
    for (let blocks = bavail - Math.ceil(leftBytes / bsize); blocks > 0; blocks -= 1) writeSync(file, block);
    closeSync(file);
  }

  /** Makes room again. */
  empty(): void {
    rmSync(this.#filler, { force: true });
  }
}
