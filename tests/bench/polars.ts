import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { text } from 'node:stream/consumers';
import { fileURLToPath } from 'node:url';
import type { Cost } from './measured-process.ts';

/** Why the script came to no end, such as for want of memory. */
export interface ScriptFailure {
  readonly skipped: string;
}

/** The script that a data person would write, or why it is not run. */
export type Polars =
  | {
      readonly version: string;
      /** @param segments glob of Parquet files of readings; @param jobsCsv the table `jobs` */
      readonly judge: (segments: string, jobsCsv: string, out: string) => Promise<Cost | ScriptFailure>;
    }
  | ScriptFailure;

const script = fileURLToPath(new URL('judgement.py', import.meta.url));

/** The script as run by a Python, if that has polars. */
export function polarsBy(python: string): Polars {
  const { status, stdout } = spawnSync(python, ['-c', 'import polars; print(polars.__version__)'], {
    encoding: 'utf8',
  });
  if (status !== 0)
    return {
      skipped: `${python} has no polars: "python3 -m venv DIR && DIR/bin/pip install polars", then --python DIR/bin/python`,
    };
  return {
    version: stdout.trim(),
    judge: async (segments, jobsCsv, out) => {
      const start = performance.now();
      const child = spawn(python, [script, segments, jobsCsv, out], { stdio: ['ignore', 'pipe', 'pipe'] });
      const said = Promise.all([text(child.stdout), text(child.stderr)]);
      const [code, signal] = (await once(child, 'exit')) as [number | null, string | null];
      const seconds = (performance.now() - start) / 1000;
      const [answer, complaint] = await said;
      if (code !== 0)
        return { skipped: `it ended with ${code ?? signal} ${complaint.trim().split('\n').at(-1)}`.trim() };
      const { cpuSeconds, peakMiB } = JSON.parse(answer) as Cost;
      return { seconds, cpuSeconds, peakMiB };
    },
  };
}
