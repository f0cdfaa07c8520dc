import { matchesGlob } from 'node:path';
import { DryholdError } from '../errors.ts';
import { fileKindOf } from '../sources/file-kinds.ts';
import { noLogStarts } from '../sources/log-clock.ts';
import { mapRows } from '../sources/map-rows.ts';
import { isAbsent, mappedFile, mappedParts } from '../sources/open-mapped.ts';
import { firstText } from '../sources/text-blocks.ts';
import type { Store } from '../store/store.ts';
import type { InputFile } from './find-inputs.ts';
import type { LoadedMap } from './loaded-map.ts';
import { mappedKind, openMapped } from './stage-mapped.ts';

/**
 * The map that a file looks like it was made for. A single map need not fit: what does not is told row by row.
 *
 * Of several that what they say of their files all allow, the one whose columns the file has, and that takes its first row.
 *
 * @throws DryholdError `file-unreadable` where none fits, or several do
 */
export async function pickMap(store: Store, maps: readonly LoadedMap[], file: InputFile): Promise<LoadedMap> {
  const alike = maps.filter((map) => looksAlike(map, file));
  if (alike.length === 1) return alike[0];
  const fitting: LoadedMap[] = [];
  for (const map of alike) if (await takesFirstRow(store, map, file)) fitting.push(map);
  if (fitting.length === 1) return fitting[0];
  const names = (of: readonly LoadedMap[]) => of.map(({ map }) => `"${map.name}"`).join(', ');
  const problem =
    fitting.length > 1
      ? `several maps fit: ${names(fitting)}; say in "looks_like" how to tell their files apart`
      : `no map fits it: ${names(maps)}; draft one with: dryhold map ${file.name}`;
  throw new DryholdError('file-unreadable', { path: file.path, problem });
}

/** Whether a map may be meant for a file, by its kind and by what the map says of its files. */
export function looksAlike(loaded: LoadedMap, file: Pick<InputFile, 'path' | 'name' | 'kind'>): boolean {
  const { looks_like: look, file: layout } = loaded.map;
  const name = (file.name.split(/[\\/]/).at(-1) ?? file.name).replace(/\.gz$/i, '');
  if (look?.file_name === undefined) {
    const named = fileKindOf(name);
    if (layout.kind !== undefined && named !== undefined && named.id !== layout.kind) return false;
    // Columns that are named and not led to by paths are those of a table.
    const nests = named?.id === 'json' || named?.id === 'ndjson';
    if (layout.kind === undefined && nests && !leadsByPaths(loaded)) return false;
  } else if (!matchesGlob(name, look.file_name)) return false;
  if (look?.has === undefined) return true;
  const text = firstText(file.path, layout.encoding);
  return look.has.every((wanted) => text.includes(wanted));
}

/** Whether a map may be meant for a file that was found in a folder, where files of any other sort may lie. */
export function isMeant(loaded: LoadedMap, file: Pick<InputFile, 'path' | 'name' | 'kind'>): boolean {
  const isKnown = fileKindOf(file.name.replace(/\.gz$/i, '')) !== undefined;
  return (isKnown || loaded.map.looks_like !== undefined) && looksAlike(loaded, file);
}

function leadsByPaths({ map: { file, parts = {}, head } }: LoadedMap): boolean {
  return (
    [file, ...Object.values(parts)].some((layout) => layout.rows_at !== undefined) ||
    Object.values(head).some(({ path }) => path !== undefined)
  );
}

async function takesFirstRow(store: Store, map: LoadedMap, file: InputFile): Promise<boolean> {
  const kind = mappedKind(map, file);
  for (const part of mappedParts(map.map)) {
    try {
      const source = await openMapped(store, kind, file.path, part);
      try {
        const opened = await mappedFile(map, kind, file.path, part, source, noLogStarts());
        for await (const row of mapRows(opened, part.entries, source)) {
          if (row.problem !== undefined || row.once.some(({ made }) => 'problem' in made)) return false;
          break;
        }
      } finally {
        await source.close?.();
      }
    } catch (error) {
      if (isAbsent(part, error)) continue;
      if (error instanceof DryholdError) return false;
      throw error;
    }
  }
  return true;
}
