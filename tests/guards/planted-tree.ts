import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, dirname, join } from 'node:path';

/** The root of the project. */
export const projectRoot = dirname(dirname(import.meta.dirname));

/** The scripts of package.json by name: a guard is tested by the very command that `npm run check` runs. */
export const scripts = (
  JSON.parse(readFileSync(join(projectRoot, 'package.json'), 'utf8')) as { scripts: Record<string, string> }
).scripts;

export interface Outcome {
  readonly status: number | null;
  /** What went to stdout and stderr. */
  readonly output: string;
}

/** A folder outside the project, in which a violation can be planted; gone when its scope ends. */
export class PlantedTree implements Disposable {
  readonly root = mkdtempSync(join(tmpdir(), 'planted-'));

  /** Writes files, path → text. */
  plant(files: Readonly<Record<string, string>>): this {
    for (const [path, text] of Object.entries(files)) {
      mkdirSync(join(this.root, dirname(path)), { recursive: true });
      writeFileSync(join(this.root, path), text);
    }
    return this;
  }

  /** Copies files or folders of the project. */
  copy(...paths: string[]): this {
    for (const path of paths) cpSync(join(projectRoot, path), join(this.root, path), { recursive: true });
    return this;
  }

  /** Lets a file or folder of the project appear in the tree without a copy. */
  link(...paths: string[]): this {
    for (const path of paths) symlinkSync(join(projectRoot, path), join(this.root, path), 'junction');
    return this;
  }

  /** Runs a script of package.json in the tree, with the project's own tools. */
  run(script: string): Outcome {
    const command = scripts[script];
    if (command === undefined) throw new Error(`no script ${script} in package.json`);
    const PATH = [join(projectRoot, 'node_modules', '.bin'), process.env['PATH']].join(delimiter);
    const { status, stdout, stderr } = spawnSync(command, {
      cwd: this.root,
      shell: true,
      encoding: 'utf8',
      env: { ...process.env, PATH, NO_COLOR: '1' },
    });
    return { status, output: stdout + stderr };
  }

  [Symbol.dispose](): void {
    rmSync(this.root, { recursive: true, force: true });
  }
}
