// Run as a process of its own: takes a bundle into a store and prints what that cost.
import { ingest } from '../../src/steps/ingest.ts';
import { Store } from '../../src/store/store.ts';

const [folder, bundle] = process.argv.slice(2);
const began = performance.now();
const store = await Store.open(folder, 'write');
const { sources, refusedFiles } = await ingest(store, [bundle]);
await store.close();
const { maxRSS } = process.resourceUsage();
console.log(
  JSON.stringify({
    rssMiB: Math.round(maxRSS / 1024),
    ms: Math.round(performance.now() - began),
    sources,
    refusedFiles,
  }),
);
