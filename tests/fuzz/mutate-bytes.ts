import type { Random } from '../../src/numerics/random.ts';
import { hostileTokens } from './hostile-tokens.ts';

type Mutation = (bytes: Buffer, random: Random, other: Buffer) => Buffer;

/** A stretch of bytes: mostly short. */
function stretch(bytes: Buffer, random: Random): [from: number, to: number] {
  const from = random.integer(0, Math.max(0, bytes.length - 1));
  const length = Math.ceil(random.logUniform(1, Math.max(2, bytes.length / 2)));
  return [from, Math.min(bytes.length, from + length)];
}

function replaced(bytes: Buffer, from: number, to: number, by: Buffer): Buffer {
  return Buffer.concat([bytes.subarray(0, from), by, bytes.subarray(to)]);
}

const mutations: Readonly<Record<string, Mutation>> = {
  flip: (bytes, random) => {
    const copy = Buffer.from(bytes);
    for (let flips = random.integer(1, 8); flips > 0 && copy.length > 0; flips -= 1)
      copy[random.integer(0, copy.length - 1)] ^= 1 << random.integer(0, 7);
    return copy;
  },
  set: (bytes, random) => {
    const copy = Buffer.from(bytes);
    if (copy.length > 0) copy[random.integer(0, copy.length - 1)] = random.choice([0, 255, 10, 13, 34, 44, 123, 128]);
    return copy;
  },
  delete: (bytes, random) => replaced(bytes, ...stretch(bytes, random), Buffer.alloc(0)),
  duplicate: (bytes, random) => {
    const [from, to] = stretch(bytes, random);
    return replaced(bytes, to, to, bytes.subarray(from, to));
  },
  splice: (bytes, random, other) => {
    const [from, to] = stretch(other, random);
    return replaced(bytes, ...stretch(bytes, random), other.subarray(from, to));
  },
  truncate: (bytes, random) => bytes.subarray(0, random.integer(0, bytes.length)),
  insert: (bytes, random) => {
    const at = random.integer(0, bytes.length);
    return replaced(bytes, at, at, Buffer.from(random.choice(hostileTokens)));
  },
  cell: (bytes, random) => {
    const parts = bytes.toString('latin1').split(/([,;\t\n"])/);
    parts[random.integer(0, parts.length - 1)] = Buffer.from(random.choice(hostileTokens)).toString('latin1');
    return Buffer.from(parts.join(''), 'latin1');
  },
  line: (bytes, random) => {
    const lines = bytes.toString('latin1').split('\n');
    const [from, to] = [random.integer(0, lines.length - 1), random.integer(0, lines.length - 1)];
    lines.splice(to, random.integer(0, 1), lines[from]);
    return Buffer.from(lines.join('\n'), 'latin1');
  },
};

/** Bytes changed in one to four ways, and the names of these. */
export function mutated(bytes: Buffer, random: Random, other: Buffer): { bytes: Buffer; how: string } {
  const ways: string[] = [];
  let changed = bytes;
  for (let left = random.choice([1, 1, 1, 2, 2, 3, 4]); left > 0; left -= 1) {
    const way = random.choice(Object.keys(mutations));
    ways.push(way);
    changed = mutations[way](changed, random, other);
  }
  return { bytes: changed, how: ways.join('+') };
}
