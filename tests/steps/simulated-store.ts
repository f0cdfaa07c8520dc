import { join } from 'node:path';
import { type SimulateFleetOptions, simulateFleet } from '../../src/simulate/fleet.ts';
import { writeBundle } from '../../src/simulate/write-bundle.ts';
import { ingest } from '../../src/steps/ingest.ts';
import { judge } from '../../src/steps/judge.ts';
import { Store } from '../../src/store/store.ts';

/** A simulated fleet as a judged store below a folder. */
export async function simulatedStore(folder: string, options: SimulateFleetOptions): Promise<Store> {
  const bundle = join(folder, `bundle-${options.seed}`);
  await writeBundle(simulateFleet(options), bundle);
  const store = await Store.open(join(folder, `store-${options.seed}`), 'write');
  await ingest(store, [bundle]);
  await judge(store);
  return store;
}
