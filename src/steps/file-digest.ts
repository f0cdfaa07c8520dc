import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';

/** The SHA-256 of a file, in hex. */
export async function fileDigest(path: string): Promise<string> {
  const hash = createHash('sha256');
  for await (const block of createReadStream(path, { highWaterMark: 1 << 20 })) hash.update(block as Buffer);
  return hash.digest('hex');
}
