import { chmodSync, existsSync, readdirSync, readFileSync, renameSync, statSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { DryholdError } from '../../src/errors.ts';
import { migrate, migrations, newestVersion } from '../../src/store/migrations.ts';
import { runQuery } from '../../src/store/run-query.ts';
import { Store } from '../../src/store/store.ts';
import { runDryhold } from './run-dryhold.ts';
import { exported, ingestFiles, inStore, tempFolder, writeFiles } from './temp-store.ts';

const files = { 'readings.csv': 'job_id,elapsed_s,suction_pa\nA,0,1\nA,1,2\n', 'people.csv': 'technician_id\nT\n' };

/** A folder with a store that holds something. */
async function filledStore(): Promise<string> {
  const folder = join(tempFolder(), 'store');
  await inStore(folder, (store) => ingestFiles(store, files));
  return folder;
}

/** The error that opening gives. */
async function openingError(folder: string, mode: 'read' | 'write'): Promise<DryholdError> {
  return Store.open(folder, mode).then(
    async (store) => {
      await store.close();
      throw new Error('it opened');
    },
    (error: unknown) => error as DryholdError,
  );
}

describe('one writer at a time', () => {
  test('another process is told who holds the store, and the holder is not harmed', async () => {
    const folder = await filledStore();
    const bundle = writeFiles(join(tempFolder(), 'b'), { 'people.csv': 'technician_id\nX\n' });
    await inStore(folder, async (store) => {
      await store.run("INSERT INTO people VALUES ('U', NULL, NULL)");
      const line = `dryhold: ${folder}: store is in use by process ${process.pid}; wait until it is done, then try again\n`;
      for (const args of [
        ['ingest', bundle],
        ['query', 'select 1'],
        ['export', 'people', '--format', 'csv'],
      ]) {
        expect(runDryhold([...args, '--store', folder])).toEqual({ status: 3, stdout: '', stderr: line });
      }
      await store.run("INSERT INTO people VALUES ('V', NULL, NULL)");
    });
    await inStore(folder, async (store) => {
      expect((await store.rows('SELECT technician_id FROM people')).map((row) => row.technician_id)).toEqual([
        'T',
        'U',
        'V',
      ]);
    });
  });

  test.each(['write', 'read'] as const)('within this process too (%s)', async (mode) => {
    const folder = await filledStore();
    await inStore(folder, async () => {
      const error = await openingError(folder, mode);
      expect([error.code, error.message]).toEqual([
        'store-busy',
        `${folder}: store is in use by this process; wait until it is done, then try again`,
      ]);
    });
    await (await Store.open(folder, mode)).close();
  });

  test('after any failure to open, the store can be opened', async () => {
    const folder = await filledStore();
    await inStore(folder, (store) => store.run(`UPDATE store_version SET version = ${newestVersion + 1}`));
    // The version is looked at only once the file is open: it must be let go of again.
    for (const mode of ['read', 'write', 'read', 'write'] as const)
      expect((await openingError(folder, mode)).code).toBe('store-newer');
    // By another process, too.
    expect(runDryhold(['query', 'select 1', '--store', folder]).stderr).toContain('store has version');
  });

  test('rows that are left before their end do not hold the store', async () => {
    const folder = await filledStore();
    await inStore(folder, async (store) => {
      for await (const rows of store.stream('SELECT range FROM range(1000000)')) {
        expect(rows.length).toBeGreaterThan(0);
        break;
      }
    });
    expect(runDryhold(['query', 'select 1', '--store', folder])).toMatchObject({ status: 0, stderr: '' });
  });
});

describe('versions', () => {
  test('a newer store is left untouched, with one line and exit status 3', async () => {
    const folder = await filledStore();
    await inStore(folder, async (store) => {
      await store.run(`UPDATE store_version SET version = ${newestVersion + 6}`);
      await store.run('CHECKPOINT');
    });
    const catalogue = readFileSync(join(folder, 'catalogue.duckdb'));
    const segments = readdirSync(join(folder, 'readings'));
    writeFileSync(join(folder, 'readings', 'of-a-newer-kind'), '');
    const bundle = writeFiles(join(tempFolder(), 'b'), { 'people.csv': 'technician_id\nX\n' });
    for (const args of [['ingest', bundle], ['query', 'select 1'], ['judge']]) {
      const { status, stderr } = runDryhold([...args, '--store', folder]);
      expect(status).toBe(3);
      expect(stderr).toBe(
        `dryhold: ${folder}: store has version ${newestVersion + 6}, this dryhold knows up to ${newestVersion}; use a newer dryhold\n`,
      );
    }
    expect(readFileSync(join(folder, 'catalogue.duckdb')).equals(catalogue)).toBe(true);
    expect(readdirSync(join(folder, 'readings')).sort()).toEqual([...segments, 'of-a-newer-kind'].sort());
  });

  const further = [
    { version: newestVersion + 1, statements: () => ['ALTER TABLE people ADD COLUMN nickname VARCHAR'] },
    { version: newestVersion + 2, statements: () => ["UPDATE people SET nickname = 'the ' || technician_id"] },
  ];

  test('an older store is taken forward step by step, and keeps what it holds', async () => {
    const folder = await filledStore();
    await inStore(folder, async (store) => {
      expect(await migrate(store.connection, [...migrations, ...further])).toBe(newestVersion + 2);
      expect(await store.rows('SELECT version FROM store_version')).toEqual([{ version: newestVersion + 2 }]);
      expect(await store.rows('SELECT technician_id, nickname FROM people')).toEqual([
        { technician_id: 'T', nickname: 'the T' },
      ]);
      expect(await store.rows('SELECT count(*) AS n FROM readings')).toEqual([{ n: 2 }]);
      expect(await migrate(store.connection, [...migrations, ...further])).toBe(newestVersion + 2);
    });
  });

  test('a step that fails leaves the store at the version it had', async () => {
    const folder = await filledStore();
    const broken = { version: newestVersion + 3, statements: () => ['DROP TABLE people', 'SELECT error($$no$$)'] };
    await inStore(folder, async (store) => {
      await expect(migrate(store.connection, [...migrations, ...further, broken])).rejects.toThrow('no');
      expect(await store.rows('SELECT version FROM store_version')).toEqual([{ version: newestVersion }]);
      expect(await store.rows('FROM people')).toEqual([{ technician_id: 'T', display_name: null, hired_on: null }]);
    });
  });

  test('a store in which nothing was ever taken can be looked at', async () => {
    const fresh = join(tempFolder(), 'fresh');
    await inStore(fresh, async () => undefined);
    const store = await Store.open(fresh, 'read');
    expect(await store.rows('FROM readings')).toEqual([]);
    await store.close();
  });
});

describe('what is no store', () => {
  test.each([
    ['words', 'just words, and more of them '.repeat(500)],
    ['a few bytes', 'x'],
  ])('a catalogue of %s gives one line and exit status 3, and is left as it is', (_, content) => {
    const folder = writeFiles(join(tempFolder(), 's'), { 'catalogue.duckdb': content });
    const bundle = writeFiles(join(tempFolder(), 'b'), { 'people.csv': 'technician_id\nX\n' });
    for (const args of [
      ['ingest', bundle],
      ['query', 'select 1'],
    ]) {
      const { status, stderr } = runDryhold([...args, '--store', folder]);
      expect([status, stderr.trimEnd().split('\n').length]).toEqual([3, 1]);
      expect(stderr).toContain(`dryhold: ${folder}: not a readable store: `);
    }
    expect(readFileSync(join(folder, 'catalogue.duckdb'), 'utf8')).toBe(content);
  });

  test('a store whose catalogue is gone keeps its readings, and says so', async () => {
    const folder = await filledStore();
    renameSync(join(folder, 'catalogue.duckdb'), join(folder, 'away'));
    const error = await openingError(folder, 'write');
    expect([error.code, error.message]).toEqual([
      'store-unreadable',
      `${folder}: not a readable store: catalogue.duckdb is gone, and readings are still there (files: 1); put it back, or name another folder`,
    ]);
    renameSync(join(folder, 'away'), join(folder, 'catalogue.duckdb'));
    await inStore(folder, async (store) => expect(await store.rows('FROM readings')).toHaveLength(2));
  });

  test('a folder without a store, and a file in its place', async () => {
    const folder = tempFolder();
    expect((await openingError(folder, 'read')).code).toBe('store-missing');
    expect(existsSync(join(folder, 'readings'))).toBe(false);
    writeFileSync(join(folder, 'file'), '');
    expect((await openingError(join(folder, 'file'), 'write')).code).toBe('store-unreadable');
  });
});

test('a query sees the readings of the store, no other files, and changes nothing', async () => {
  const folder = await filledStore();
  const secret = join(writeFiles(tempFolder(), { 'secret.csv': 'a\n1\n' }), 'secret.csv');
  const store = await Store.open(folder, 'read');
  expect((await runQuery(store, 'SELECT sum(suction_pa) AS s FROM readings')).rows).toEqual([{ s: 3 }]);
  for (const sql of [
    `FROM read_csv('${secret}')`,
    `COPY people TO '${secret}'`,
    'DELETE FROM people',
    'SELECT 1; SELECT 2',
    'SET enable_external_access = true',
    'nonsense',
  ])
    await expect(runQuery(store, sql)).rejects.toMatchObject({ code: 'query-refused' });
  await store.close();
  expect(readFileSync(secret, 'utf8')).toBe('a\n1\n');
});

describe('where a store lies', () => {
  test.each(["it's here", 'star*', '[brackets]', 'ünï 工', 'a,b'])('in a folder named %s', async (name) => {
    const folder = join(tempFolder(), name);
    await inStore(folder, (store) => ingestFiles(store, files));
    const store = await Store.open(folder, 'read');
    expect(await store.rows('SELECT job_id, suction_pa FROM readings')).toHaveLength(2);
    await store.close();
  });

  test('the working folder may be another store', async () => {
    const one = await filledStore();
    const other = join(one, '..', 'other');
    await inStore(other, (store) => ingestFiles(store, { 'readings.csv': 'job_id,elapsed_s\nB,0\n' }));
    for (const args of [
      ['query', 'select distinct job_id from readings', '--json'],
      ['export', 'readings', '--format', 'csv'],
    ]) {
      const { stdout, stderr } = runDryhold([...args, '--store', join('..', basename(other))], { cwd: one });
      expect([stderr, stdout]).toEqual(['', expect.stringContaining('B')]);
    }
  });

  test('a store that was moved reads and grows as before', async () => {
    const folder = await filledStore();
    const moved = join(tempFolder(), 'elsewhere');
    renameSync(folder, moved);
    await inStore(moved, async (store) => {
      expect(await exported(store, 'readings')).toContain('\nA,1.0,');
      await ingestFiles(store, { 'readings.csv': 'job_id,elapsed_s\nB,0\n' });
      expect(await store.rows('FROM readings')).toHaveLength(3);
    });
    expect(existsSync(folder)).toBe(false);
  });

  test.skipIf(process.getuid?.() !== 0)('read-only for this user: it can be looked at and not written', async () => {
    const folder = await filledStore();
    const outer = join(folder, '..');
    const bundle = writeFiles(join(outer, 'b'), { 'people.csv': 'technician_id\nX\n' });
    for (const path of [outer, folder, join(folder, 'readings')]) chmodSync(path, 0o755);
    const nobody = 65_534;
    const query = ['query', 'select count(*) as n from readings', '--json', '--store', folder];
    expect(runDryhold(query, { user: nobody })).toMatchObject({ status: 0, stderr: '' });
    for (const store of [folder, join(outer, 'new')]) {
      const { status, stderr } = runDryhold(['ingest', bundle, '--store', store], { user: nobody });
      expect([status, stderr.trimEnd().split('\n').length]).toEqual([3, 1]);
      expect(stderr).toMatch(/permission denied/i);
    }
    expect(readdirSync(outer).sort()).toEqual(['b', basename(folder)].sort());
    expect(statSync(join(folder, 'catalogue.duckdb')).uid).toBe(0);
  });
});
