import { cpSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { Store } from '../../src/store/store.ts';
import { type Undisturbed, undisturbed } from './kill-chain.ts';
import { writeMaps } from './kill-inputs.ts';
import { lookCommand, type StoreCommand, watchCommand } from './store-command.ts';

/** A store of version 4, with what the first command of the sequence takes in: the next to open it takes it forward. */
export async function olderStore(folder: string, [first]: readonly StoreCommand[]): Promise<Undisturbed> {
  const store = join(folder, 'store');
  mkdirSync(folder, { recursive: true });
  await first.inProcess(store);
  const opened = await Store.open(store, 'write');
  await opened.run('DROP TABLE fed_readings');
  await opened.run('UPDATE store_version SET version = 4');
  await opened.close();
  return undisturbed(folder, [lookCommand('take an older store forward')]);
}

/** The drop folder of the sequence, watched. */
export function watchedFolder(folder: string, inputs: string): Promise<Undisturbed> {
  const drop = join(folder, 'drop');
  cpSync(join(inputs, 'first', 'drop'), drop, { recursive: true });
  return undisturbed(folder, [watchCommand('ingest a watched folder', drop, writeMaps(inputs))]);
}
