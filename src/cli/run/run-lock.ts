import { createHash } from 'node:crypto';
import { once } from 'node:events';
import { realpathSync, rmSync } from 'node:fs';
import { connect, createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DateTime } from 'luxon';
import { DryholdError } from '../../errors.ts';

/**
 * Makes sure that no other process carries out the same file. The lock is a name that this process listens at, which only
 * processes of this machine can reach: it goes with the process, however that ends, so that no lock is ever left over.
 * A run that is killed outright (`kill -9`) cannot end its step: that works on while the lock is free already, and only the
 * store's own lock keeps the next run from it.
 *
 * @returns what gives it up
 * @throws DryholdError `run-busy`
 */
export async function holdRun(path: string): Promise<() => void> {
  const name = lockName(realpathSync(path));
  const holder = `process ${process.pid}, since ${DateTime.now().toFormat('yyyy-MM-dd HH:mm:ss')}`;
  const server = createServer((socket) => socket.on('error', () => undefined).end(holder));
  for (let tries = 0; tries < 2; tries += 1) {
    try {
      server.listen(name);
      await once(server, 'listening');
      server.unref();
      return () => server.close();
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EADDRINUSE') throw error;
      const other = await holderOf(name);
      if (other !== undefined) throw new DryholdError('run-busy', { path, holder: other }, error);
      // Only where the name is a file does it outlive who listened.
      rmSync(name, { force: true });
    }
  }
  throw new DryholdError('run-busy', { path, holder: 'another process' });
}

function lockName(path: string): string {
  const key = `dryhold-run-${createHash('sha256').update(path).digest('hex').slice(0, 24)}`;
  if (process.platform === 'win32') return `\\\\.\\pipe\\${key}`;
  return process.platform === 'linux' ? `\0${key}` : join(tmpdir(), key);
}

/** What the holder says of itself; undefined where nobody listens. */
async function holderOf(name: string): Promise<string | undefined> {
  const socket = connect(name).setTimeout(2000, () => socket.end());
  let said = '';
  socket.on('data', (block) => (said += String(block)));
  try {
    await once(socket, 'close');
    return said || 'another process';
  } catch {
    return undefined;
  }
}
