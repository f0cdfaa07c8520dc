// Runs `dryhold` once, as the command line does, and says on standard error how long it took and how much memory: for fleet.ts.
import { main } from '../../src/cli/main.ts';

const start = performance.now();
const status = await main(process.argv.slice(2));
const seconds = (performance.now() - start) / 1000;
const { userCPUTime, systemCPUTime, maxRSS } = process.resourceUsage();
console.error(
  JSON.stringify({ status, seconds, cpuSeconds: (userCPUTime + systemCPUTime) / 1e6, peakMiB: maxRSS / 1024 }),
);
