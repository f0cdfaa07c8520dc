import { relative } from 'node:path';
import { DryholdError } from '../../errors.ts';
import { readings } from '../../records/tables/readings.ts';
import { parquetColumns } from '../../store/engine-rows.ts';
import { jobListing } from '../../store/publish-readings.ts';
import { shardFile, shardRecords, statesName } from '../../store/shard-tables.ts';
import { identifier, literal, parquetFiles } from '../../store/sql.ts';
import { Store } from '../../store/store.ts';

/**
 * Opens a store of a shard's jobs that is made for the time of judging them: records are copied, the readings are read where they lie.
 *
 * @param folder the shard's
 * @param scratch where the store is made
 * @throws DryholdError `file-unreadable`
 */
export async function openShard(folder: string, scratch: string): Promise<Store> {
  const store = await Store.open(scratch, 'write');
  try {
    await store.transaction(async () => {
      for (const table of shardRecords) await copied(store, shardFile(folder, table.name), identifier(table.name), '*');
      await copied(store, shardFile(folder, statesName), 'job_revisions', 'job_id, revision');
      await listReadings(store, shardFile(folder, readings.name));
    });
    return store;
  } catch (error) {
    await store.close();
    throw error;
  }
}

async function copied(store: Store, path: string, table: string, columns: string): Promise<void> {
  try {
    await store.run(`INSERT INTO ${table} BY NAME SELECT ${columns} FROM ${parquetFiles(path)}`);
  } catch (error) {
    if (error instanceof DryholdError) throw error;
    throw new DryholdError('file-unreadable', { path, problem: (error as Error).message.split('\n')[0] }, error);
  }
}

/** Makes the shard's readings the one segment of the store. */
async function listReadings(store: Store, path: string): Promise<void> {
  const columns = [...(await parquetColumns(store, path)).keys()];
  await store.run(`CREATE OR REPLACE TEMP TABLE shard_places AS ${jobListing({ path, columns })}`);
  const file = relative(store.segmentsFolder, path);
  await store.run(
    `INSERT INTO segments SELECT 1, ${literal(file)}, sum(rows), [${columns.map(literal).join(', ')}] FROM temp.shard_places HAVING count(*) > 0`,
  );
  await store.run('INSERT INTO segment_jobs SELECT job_id, 1, first_row, rows, gauges, marks FROM temp.shard_places');
}
