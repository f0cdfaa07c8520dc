// Loaded before a measured script (`node --import`): says on file descriptor 3, when it ends, what the process took.
// Plain JavaScript, so that the script finds Node as it would be without it.
import { readFileSync, writeSync } from 'node:fs';
import { isMainThread } from 'node:worker_threads';

// It is loaded in every thread of the process.
if (isMainThread) process.on('exit', tellUsage);

function tellUsage() {
  const { userCPUTime, systemCPUTime, maxRSS } = process.resourceUsage();
  writeSync(3, JSON.stringify({ cpuSeconds: (userCPUTime + systemCPUTime) / 1e6, peakMiB: peakKiB(maxRSS) / 1024 }));
}

/** On Linux `maxRSS` begins with the memory of the process that started this one; what the kernel notes of this one does not. */
function peakKiB(maxRSS) {
  try {
    return Number(/^VmHWM:\s*(\d+)/m.exec(readFileSync('/proc/self/status', 'utf8'))?.[1] ?? maxRSS);
  } catch {
    return maxRSS;
  }
}
