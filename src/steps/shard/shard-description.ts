import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { DryholdError } from '../../errors.ts';

/** The file that says what a shard is. */
export const shardName = 'shard.json';

/** The file that lists the shards of a folder. */
export const shardListName = 'shards.json';

/** How shards are laid out; grows whenever a program that reads them has to be another one. */
export const shardFormat = 1;

/** Where jobs go that no record gives a day. */
export const undated = 'undated';

/** Files by name, each with the SHA-256 of its bytes. */
export const fileSums = z.record(z.string(), z.string().regex(/^[0-9a-f]{64}$/));

/** What a shard is. */
const shardSchema = z.strictObject({
  format: z.int(),
  /** The method by which the program that wrote it makes facts. */
  method: z.int(),
  /** When its jobs began: `2026-03`, or `undated`. */
  month: z.string(),
  jobs: z.int(),
  readings: z.int(),
  files: fileSums,
});

export type ShardDescription = z.infer<typeof shardSchema>;

/** A shard as the list of a folder has it. */
export interface ListedShard {
  /** From the folder of the list: `2026-03/0000001-0010000`. */
  readonly folder: string;
  readonly jobs: number;
  readonly readings: number;
}

/**
 * Reads what a shard is.
 *
 * @throws DryholdError `file-unreadable`
 */
export function readShardDescription(folder: string): ShardDescription {
  return readDescription(join(folder, shardName), shardSchema, 'a shard');
}

/**
 * Reads a file that says what lies beside it.
 *
 * @throws DryholdError `file-unreadable` where it is gone, of another format, or not what it should be
 */
export function readDescription<Description extends { format: number }>(
  path: string,
  schema: z.ZodType<Description>,
  what: string,
): Description {
  let json: unknown;
  try {
    json = JSON.parse(readFileSync(path, 'utf8'));
  } catch (error) {
    const isGone = (error as NodeJS.ErrnoException).code === 'ENOENT';
    const problem = isGone
      ? `no such file, and without it this is not ${what}`
      : (error as Error).message.split('\n')[0];
    throw new DryholdError('file-unreadable', { path, problem }, error);
  }
  const format = z.object({ format: z.int() }).safeParse(json).data?.format;
  if (format !== undefined && format !== shardFormat) {
    const problem = `it is of format ${format}, this dryhold knows ${shardFormat}; use the same dryhold on every machine`;
    throw new DryholdError('file-unreadable', { path, problem });
  }
  const parsed = schema.safeParse(json);
  if (parsed.success) return parsed.data;
  const [issue] = parsed.error.issues;
  const problem = `it does not describe ${what} (${issue.path.join('.') || 'the top'}: ${issue.message}); write it anew`;
  throw new DryholdError('file-unreadable', { path, problem });
}
