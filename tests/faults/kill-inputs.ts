import { copyFileSync, mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { Random } from '../../src/numerics/random.ts';
import { simulateFleet } from '../../src/simulate/fleet.ts';
import { writeBundle } from '../../src/simulate/write-bundle.ts';
import { writeFiles } from '../write-files.ts';
import { storedZip } from '../stored-zip.ts';
import { ingestCommand, judgeCommand, type StoreCommand } from './store-command.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));
const samples = join(root, 'sample-data');

/** How much is made; a test makes less than the command that anybody can run. */
export interface InputSizes {
  readonly seed: number;
  /** Jobs of the bundle. */
  readonly jobs: number;
  /** Small mapped files; half of them are of the bundle's jobs. */
  readonly smallFiles: number;
  /** Rows of the mapped file that goes through the engine. */
  readonly largeRows: number;
  /** Bundles that come in one command. */
  readonly bundles: number;
}

/**
 * Writes all that the sequence takes in: a simulated bundle; mapped files that share a transaction, that merge with the
 * bundle's jobs, that are packed, large, wrong in a row or not readable at all; both again, corrected; many small bundles.
 *
 * @returns the sequence of commands
 */
export async function writeInputs(folder: string, sizes: InputSizes): Promise<StoreCommand[]> {
  const random = new Random(sizes.seed, 1);
  const bundle = join(folder, 'first', 'bundle');
  await writeBundle(simulateFleet({ jobs: sizes.jobs, seed: sizes.seed }), bundle);
  const jobIds = cells(readFileSync(join(bundle, 'jobs.csv'), 'utf8'), 'job_id');
  const drop = join(folder, 'first', 'drop');
  writeDrop(drop, jobIds, sizes, random);
  const maps = writeMaps(folder);
  const again = join(folder, 'again', 'bundle');
  correctBundle(bundle, again);
  const dropAgain = join(folder, 'again', 'drop');
  correctDrop(drop, dropAgain, sizes, random);
  const small = Array.from({ length: sizes.bundles }, (_, index) => writeSmallBundle(folder, index, random));
  const logs = [join(samples, 'mapped-logs', 'logs'), join(samples, 'packed-meadow', 'drops')];
  return [
    ingestCommand('ingest a bundle', [bundle]),
    ingestCommand('ingest mapped files', [drop, ...logs], maps),
    ingestCommand('ingest the bundle again, corrected', [again]),
    ingestCommand('ingest mapped files again, corrected', [dropAgain, ...logs], maps),
    ingestCommand(`ingest ${sizes.bundles} bundles`, small),
    judgeCommand('judge'),
    judgeCommand('judge by another policy', join(root, 'pipelines', 'policies', 'ufgs-refrigerant-piping.json')),
  ];
}

/** The maps that the mapped files want: the samples' own, and one for the large file. */
export function writeMaps(folder: string): string[] {
  const large = {
    name: 'large-log',
    looks_like: { file_name: 'large-*.csv' },
    file: { delimiter: ';', decimal: ',', header_begins: 'Job;' },
    time_zone: 'America/Phoenix',
    rows: [
      {
        table: 'readings',
        columns: {
          job_id: { column: 'Job' },
          elapsed_s: { column: 'At', time: { format: 'dd.MM.yyyy HH:mm:ss' } },
          vacuum_pa: { column: 'Vac (mbar)', unit: 'in header' },
        },
      },
    ],
  };
  writeFiles(folder, { 'large-map.json': JSON.stringify(large) });
  return [
    join(folder, 'large-map.json'),
    join(samples, 'mapped-logs', 'map.json'),
    join(samples, 'packed-meadow', 'map.json'),
  ];
}

function writeDrop(drop: string, jobIds: readonly string[], sizes: InputSizes, random: Random): void {
  const files: Record<string, string | Buffer> = {
    'broken.csv.gz': 'no gzip',
    'wrong-row.csv': smallLog('wrong-row', random).replace(/\n09:00:20;[^;]*/, '\n09:00:20;soon'),
    'packed.csv.gz': gzipSync(smallLog('packed', random)),
    'week.zip': storedZip(
      Array.from({ length: 12 }, (_, index) => ({ name: `Z-${index}.csv`, content: smallLog(`Z-${index}`, random) })),
    ),
    'large-1.csv': largeLog(['L-1', 'L-2', jobIds[0], jobIds[1]], sizes.largeRows, random),
  };
  for (let index = 0; index < sizes.smallFiles; index += 1) {
    const job = index % 2 === 0 ? jobIds[index % jobIds.length] : `S-${index}`;
    // Several files of one job, too: they lie in folders, since the file's name is the job's.
    files[join(`${index}`, `${job}.csv`)] = smallLog(job, random);
  }
  writeFiles(drop, files);
}

/** A third of the files say something else, a third are the same, of the rest there is nothing. */
function correctDrop(drop: string, again: string, sizes: InputSizes, random: Random): void {
  mkdirSync(again, { recursive: true });
  for (const name of ['broken.csv.gz', 'week.zip']) copyFileSync(join(drop, name), join(again, name));
  const large = readFileSync(join(drop, 'large-1.csv'), 'utf8');
  const files: Record<string, string> = {
    'wrong-row.csv': smallLog('wrong-row', random),
    'large-1.csv': large.replaceAll(/;0,0(\d)/g, ';0,1$1'),
  };
  for (let index = 0; index < sizes.smallFiles; index += 1) {
    if (index % 3 === 2) continue;
    const name = index % 2 === 0 ? undefined : `S-${index}`;
    const from = name === undefined ? undefined : join(`${index}`, `${name}.csv`);
    if (from !== undefined && name !== undefined)
      files[from] = index % 3 === 0 ? readFileSync(join(drop, from), 'utf8') : smallLog(name, random);
  }
  writeFiles(again, files);
}

/** The bundle with each 50th reading and each third record of a job changed, and without what came last. */
function correctBundle(bundle: string, again: string): void {
  const changed = (name: string, change: (row: string, index: number) => string) => {
    const rows = readFileSync(join(bundle, name), 'utf8').trimEnd().split('\r\n');
    const kept = rows.slice(0, Math.ceil(rows.length * 0.9));
    return `${kept.map((row, index) => (index === 0 ? row : change(row, index))).join('\r\n')}\r\n`;
  };
  writeFiles(again, {
    'readings.csv': changed('readings.csv', (row, index) =>
      index % 50 === 0 ? row.replace(/^([^,]*,[^,]*,)(\d+)/, (_, before: string) => `${before}${index}`) : row,
    ),
    'jobs.csv': changed('jobs.csv', (row, index) => (index % 3 === 0 ? row.replace(/R-410A/, 'R-32') : row)),
    'people.csv': readFileSync(join(bundle, 'people.csv'), 'utf8'),
    'inspections.csv': 'system_id,inspected_on\nX,2026-02-29\nY,2026-02-28\n',
  });
}

function writeSmallBundle(folder: string, index: number, random: Random): string {
  const rows = Array.from({ length: 150 }, (_, at) => `P-${index},${at * 5},${pascals(at, random)}`);
  return writeFiles(join(folder, 'parts', String(index)), {
    'jobs.csv': `job_id,started_at\nP-${index},2026-03-05T14:30:00Z\n`,
    'readings.csv': `job_id,elapsed_s,vacuum_pa\n${rows.join('\n')}\n`,
  });
}

/** A log in the layout of the sample `mapped-logs`. */
function smallLog(job: string, random: Random): string {
  const rows = Array.from({ length: 40 }, (_, at) => {
    const clock = new Date(9 * 3_600_000 + at * 10_000).toISOString().slice(11, 19);
    return `${clock};${(70 + random.uniform()).toFixed(1)};${(pascals(at, random) / 1000).toFixed(4)};`;
  });
  return `Copper Heron bench recorder\n"File of job";${job}\n"Clock is the site's own"\n\nAt;Pipe F;Deep kPa;Remark\n${rows.join('\n')}\n`;
}

function largeLog(jobs: readonly string[], rows: number, random: Random): string {
  const perJob = Math.ceil(rows / jobs.length);
  const lines = jobs.flatMap((job) =>
    Array.from({ length: perJob }, (_, at) => {
      const [, day, time] = /(.*)T(.{8})/.exec(new Date(Date.UTC(2026, 2, 5, 8) + at * 2000).toISOString()) ?? [];
      const mbar = (pascals(at, random) / 100).toFixed(4).replace('.', ',');
      return `${job};${(day ?? '').split('-').reverse().join('.')} ${time};${mbar}`;
    }),
  );
  return `Job;At;Vac (mbar)\n${lines.join('\n')}\n`;
}

/** A pull-down with noise [Pa]. */
function pascals(at: number, random: Random): number {
  return 4 + 900 * Math.exp(-at / 8) + random.uniform();
}

/** The values of a column of a CSV in which nothing is quoted before it. */
function cells(text: string, column: string): string[] {
  const [header, ...rows] = text.trimEnd().split(/\r?\n/);
  const place = header.split(',').indexOf(column);
  return rows.map((row) => row.split(',')[place]);
}
