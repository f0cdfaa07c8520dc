import { basename } from 'node:path';
import { gzipSync } from 'node:zlib';
import { Random } from '../../src/numerics/random.ts';
import { storedZip } from '../stored-zip.ts';
import { generatedFile } from './generated-file.ts';
import { mutated } from './mutate-bytes.ts';
import type { SampleFile } from './sample-files.ts';

/** One file of a run, as it is taken in. */
export interface FuzzCase {
  readonly number: number;
  /** Whether it is a file of a bundle, one with a map, or one for which a map is to be drafted. */
  readonly lane: 'bundle' | 'mapped' | 'draft';
  readonly name: string;
  readonly bytes: Buffer;
  readonly table?: string;
  readonly map?: string;
  /** Where it came from, and what was done to it. */
  readonly what: string;
}

/** The file of that number; the same for the same seed, whichever others are drawn. */
export function drawCase(seed: number, number: number, samples: readonly SampleFile[]): FuzzCase {
  const random = new Random(seed, number);
  const lane = random.weighted({ bundle: 50, mapped: 42, draft: 8 } as const);
  if (lane === 'bundle' && random.chance(0.3)) return { number, lane, ...generatedFile(seed, number, random) };
  const own = samples.filter(({ maps }) => (lane === 'bundle') === (maps === undefined) || lane === 'draft');
  const sample = random.choice(own);
  const other = random.choice(samples);
  const changed = lane === 'mapped' && random.chance(0.15) ? undefined : changedFile(sample, random, other);
  const file = {
    number,
    lane,
    name: sample.name,
    bytes: changed?.bytes ?? sample.bytes,
    what: `${sample.name}: ${changed?.how ?? 'its map changed'}`,
  };
  if (lane === 'bundle') return { ...file, name: packedName(file.name, number), table: sample.table };
  if (lane === 'draft') return file;
  const map = random.choice(sample.maps ?? []);
  return {
    ...file,
    map: changed === undefined ? mutated(Buffer.from(map), random, other.bytes).bytes.toString() : map,
  };
}

/** Every file of a table has a name of its own. */
function packedName(name: string, number: number): string {
  return name.replace(/^[^.]*/, String(number));
}

/** A sample with its bytes changed, or what is packed in it. */
function changedFile(sample: SampleFile, random: Random, other: SampleFile): { bytes: Buffer; how: string } {
  const { bytes, entries, inner } = sample;
  if (random.chance(0.3)) return mutated(bytes, random, other.bytes);
  if (inner !== undefined) {
    const changed = mutated(inner, random, other.bytes);
    return { bytes: gzipSync(changed.bytes), how: `packed: ${changed.how}` };
  }
  if (entries === undefined || entries.length === 0) return mutated(bytes, random, other.bytes);
  const at = random.integer(0, entries.length - 1);
  const changed = mutated(entries[at].content, random, other.bytes);
  const name = random.chance(0.05) ? random.choice(entries).name : entries[at].name;
  return {
    bytes: storedZip(entries.toSpliced(at, 1, { name, content: changed.bytes })),
    how: `${basename(entries[at].name)} in it: ${changed.how}`,
  };
}
