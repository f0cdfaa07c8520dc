// Judges a store and prints how long it took and the most memory that the process held: run by bench.ts as a process of
// its own, as the command is.
import { judge } from '../../src/steps/judge.ts';
import { Store } from '../../src/store/store.ts';
import { timed } from './timing.ts';

const store = await Store.open(process.argv[2], 'write');
const timing = await timed(() => judge(store));
await store.close();
console.log(JSON.stringify({ ...timing, peakMiB: process.resourceUsage().maxRSS / 1024 }));
