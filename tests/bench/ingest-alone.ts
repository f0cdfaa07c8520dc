// Run as a process of its own: takes what lies at a path into a store through a map, and prints what that cost.
import { ingest } from '../../src/steps/ingest.ts';
import { Store } from '../../src/store/store.ts';
import { timed } from './timing.ts';

const [folder, path, map] = process.argv.slice(2);
const store = await Store.open(folder, 'write');
let kept = 0;
const timing = await timed(async () => {
  const { sources } = await ingest(store, [path], { map });
  kept = sources.reduce((sum, source) => sum + source.rows_kept, 0);
});
await store.close();
console.log(JSON.stringify({ ...timing, kept, peakMiB: Math.round(process.resourceUsage().maxRSS / 1024) }));
