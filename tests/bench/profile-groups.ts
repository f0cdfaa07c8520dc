/** A profile as V8 writes it: what stood on the stack, sample by sample. */
export interface CpuProfile {
  readonly nodes: readonly {
    readonly id: number;
    readonly callFrame: { readonly functionName: string; readonly url: string };
    readonly children?: readonly number[];
  }[];
  readonly samples: readonly number[];
  /** Before each sample [µs]. */
  readonly timeDeltas: readonly number[];
}

/** What a file is about; the first that fits. A frame without a group counts for its caller: numerics are part of who asks for them. */
const groups: readonly (readonly [RegExp, string])[] = [
  [
    /\/src\/(traces\/curve|facts\/recording\/job-curves|steps\/curve|store\/curve)/,
    'curves, by which copies are found',
  ],
  [/\/src\/facts\/rise\//, 'rise fits'],
  [/\/src\/facts\/pull-down\//, 'pull-down'],
  [/\/src\/(facts\/pressure-test\/|traces\/pressure-|facts\/(test-loss|standing-))/, 'pressure tests'],
  [/\/src\/facts\/(charge|run-test)\/|\/src\/traces\/(scale|run)/, 'charge and running system'],
  [/\/src\/facts\/recording\//, 'signs of other units, grain'],
  [/\/src\/traces\//, 'segmentation'],
  [/\/src\/facts\//, 'other facts'],
  [/\/src\/checks\//, 'findings'],
  [/\/src\/store\/(segment|read-|column-buffers)/, 'reading of segments'],
  [/\/src\/store\/row-appender|\/DuckDBAppender/, 'writing of rows'],
  [/\/src\/(store|steps|records|sources)\//, 'records, store and order of the work'],
  [/\/@duckdb\//, 'calls into the engine'],
  [
    /^node:internal\/(modules|vm|bootstrap|deps|process\/pre)|\/src\/cli\/|\/bin\/|\/node_modules\//,
    'loading of modules',
  ],
  [/^node:/, 'Node itself'],
];

const named: ReadonlyMap<string, string> = new Map([
  ['(idle)', 'idle'],
  ['(garbage collector)', 'garbage collection'],
  ['(program)', 'within native code'],
]);

/** Time by what it was spent on [s]. */
export function timeByGroup(profile: CpuProfile): Map<string, number> {
  const parents = new Map<number, number>();
  const nodes = new Map(profile.nodes.map((node) => [node.id, node]));
  for (const { id, children = [] } of profile.nodes) for (const child of children) parents.set(child, id);
  const known = new Map<number, string>();
  const groupOf = (id: number | undefined): string => {
    if (id === undefined) return 'other';
    const before = known.get(id);
    if (before !== undefined) return before;
    const { functionName = '', url = '' } = nodes.get(id)?.callFrame ?? {};
    const own = named.get(functionName) ?? groups.find(([pattern]) => pattern.test(url))?.[1];
    const group = own ?? groupOf(parents.get(id));
    known.set(id, group);
    return group;
  };
  const seconds = new Map<string, number>();
  for (const [at, id] of profile.samples.entries()) {
    const group = groupOf(id);
    seconds.set(group, (seconds.get(group) ?? 0) + profile.timeDeltas[at] / 1e6);
  }
  return seconds;
}
