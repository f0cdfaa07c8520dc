// What a user would have to change in the drafted maps of the samples before their rows are right.
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { WrittenMap } from '../src/sources/draft/draft.ts';
import { draftFileMap } from '../src/steps/draft-map.ts';
import { differencesOf, expectedOf, mapsOf, sampleRoot, samples } from './samples.ts';

/**
 * One change, as in JSON Patch: one place of the map, and what stands there afterwards. Objects and lists on the way that are
 * not there are made.
 */
export interface Edit {
  readonly op: 'add' | 'remove' | 'replace';
  readonly path: string;
  readonly value?: unknown;
}

/** The edits of one draft, as `draft-edits.json` beside a sample lists them. */
export interface EditedDraft {
  /** The file that the map is drafted for. */
  readonly file: string;
  /** The map of the sample whose place the edited draft takes. */
  readonly instead_of: string;
  /** What a user would pass as `--time-zone`. */
  readonly time_zone?: string;
  readonly edits: readonly Edit[];
}

/** The samples that come in through maps. */
export const mappedSamples = samples.filter((sample) => mapsOf(expectedOf(sample)).length > 0);

export function editedDraftsOf(sample: string): EditedDraft[] {
  const path = join(sampleRoot, sample, 'draft-edits.json');
  return existsSync(path) ? (JSON.parse(readFileSync(path, 'utf8')) as EditedDraft[]) : [];
}

/** The map as it is drafted for a file of a sample. */
export async function draftFor(sample: string, { file, time_zone: zone }: EditedDraft): Promise<WrittenMap> {
  return (await draftFileMap(join(sampleRoot, sample, file), zone ?? 'UTC', zone !== undefined)).map;
}

/**
 * Takes a sample in by edited drafts instead of its own maps, and compares.
 *
 * @param edited the maps, by the name of the one whose place each takes
 * @returns what differs, in words; nothing where all is right
 */
export async function differencesBy(sample: string, edited: ReadonlyMap<string, unknown>): Promise<string[]> {
  const folder = mkdtempSync(join(tmpdir(), 'dryhold-drafts-'));
  try {
    for (const [name, map] of edited) writeFileSync(join(folder, name), JSON.stringify(map, null, 2));
    return await differencesOf(sample, (name) => join(folder, name));
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** A map with edits made to it, one after the other. */
export function editedMap(map: WrittenMap, edits: readonly Edit[]): unknown {
  const document: unknown = JSON.parse(JSON.stringify(map));
  for (const edit of edits) apply(document, edit);
  return document;
}

type Container = Record<string, unknown> | unknown[];

function apply(document: unknown, { op, path, value }: Edit): void {
  const steps = path
    .split('/')
    .slice(1)
    .map((step) => step.replaceAll('~1', '/').replaceAll('~0', '~'));
  const last = steps.at(-1);
  if (last === undefined) throw new Error(`${op} "${path}": no place`);
  let at = document as Container;
  for (const [index, step] of steps.slice(0, -1).entries()) {
    let next = member(at, step);
    if (next === undefined) {
      if (op !== 'add') throw new Error(`${op} ${path}: nothing there`);
      next = steps[index + 1] === '-' ? [] : {};
      put(at, step, next);
    }
    at = next as Container;
  }
  if (op !== 'add' && member(at, last) === undefined) throw new Error(`${op} ${path}: nothing there`);
  if (op === 'remove') drop(at, last);
  else if (op === 'add' && Array.isArray(at) && last !== '-') at.splice(Number(last), 0, structuredClone(value));
  else put(at, last, structuredClone(value));
}

function drop(at: Container, step: string): void {
  if (Array.isArray(at)) at.splice(Number(step), 1);
  else delete at[step];
}

function member(at: Container, step: string): unknown {
  return Array.isArray(at) ? at[Number(step)] : Object.hasOwn(at, step) ? at[step] : undefined;
}

function put(at: Container, step: string, value: unknown): void {
  if (!Array.isArray(at)) at[step] = value;
  else if (step === '-' || Number(step) === at.length) at.push(value);
  else at[Number(step)] = value;
}
