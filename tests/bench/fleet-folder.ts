import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { VacuumLogFleet } from './fleets/vacuum-job.ts';
import type { RunScript } from './measured-process.ts';
import type { Timing } from './timing.ts';

/** What is drawn: readings of nothing but the vacuum, or all that a shop's export holds. */
export type FleetKind = 'vacuum-logs' | 'whole-logs';

/** A drawn fleet on disk. */
export interface DrawnFleet {
  readonly folder: string;
  readonly jobs: number;
  readonly readings: number;
  /** What the drawing took, then or now. */
  readonly drawing: Timing & { readonly peakMiB: number };
  /** Bundles with readings in Parquet files, or in a CSV; absent where it was not asked for. */
  readonly parquet: string | undefined;
  readonly csv: string | undefined;
}

/** What is drawn. */
export interface FleetPlan extends VacuumLogFleet {
  readonly csv: boolean;
}

const script = fileURLToPath(new URL('draw.ts', import.meta.url));

/** The fleet of that plan below a folder: drawn now, unless it was drawn there before. */
export async function drawnFleet(
  run: RunScript,
  below: string,
  kind: FleetKind,
  plan: FleetPlan,
  say: (what: string) => void,
): Promise<DrawnFleet> {
  const day = plan.oneDay === undefined ? '' : `-day-${plan.oneDay.day}-from-${plan.oneDay.firstNumber}`;
  const folder = join(below, `${kind}-${plan.jobs}-every-${plan.intervalS}-s${day}-seed-${plan.seed}`);
  const noted = join(folder, 'drawn.json');
  const csv = join(folder, 'csv');
  if (!existsSync(noted) || (plan.csv && !existsSync(csv))) {
    say(`${plan.jobs} jobs are drawn: ${kind}`);
    rmSync(folder, { recursive: true, force: true });
    const { stdout, peakMiB } = await run(script, [kind, folder, JSON.stringify(plan)]);
    writeFileSync(noted, JSON.stringify({ ...(JSON.parse(stdout) as object), peakMiB }));
  }
  const { readings, ...drawing } = JSON.parse(readFileSync(noted, 'utf8')) as { readings: number } & Timing & {
      peakMiB: number;
    };
  const parquet = join(folder, 'parquet');
  return {
    folder,
    jobs: plan.jobs,
    readings,
    drawing,
    parquet: existsSync(parquet) ? parquet : undefined,
    csv: existsSync(csv) ? csv : undefined,
  };
}

/** The Parquet files of a store's readings, as a glob. */
export function segmentsOf(store: string): string {
  return join(store, 'readings', '*.parquet');
}

/** The readings of a bundle: a CSV, or a glob of Parquet files. */
export function readingsOf(bundle: string): string {
  const csv = join(bundle, 'readings.csv');
  return existsSync(csv) ? csv : join(bundle, 'readings', '*.parquet');
}
