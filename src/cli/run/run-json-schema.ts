import type { Command } from 'commander';
import { z } from 'zod';
import { runSchema } from './run-schema.ts';

/**
 * The JSON Schema (2020-12) of declared runs, for editors.
 *
 * @param program the commands as they are declared
 * @example runJsonSchema(dryholdProgram()) // { $schema: 'https://json-schema.org/draft/2020-12/schema', … }
 */
export function runJsonSchema(program: Command): object {
  return z.toJSONSchema(runSchema(program), { target: 'draft-2020-12', io: 'input' });
}
