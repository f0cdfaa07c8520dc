import { z } from 'zod';
import { sourceMapSchema } from './source-map.ts';

/**
 * The JSON Schema (2020-12) of source maps, for editors.
 *
 * @example sourceMapJsonSchema() // { $schema: 'https://json-schema.org/draft/2020-12/schema', … }
 */
export function sourceMapJsonSchema(): object {
  return z.toJSONSchema(sourceMapSchema, { target: 'draft-2020-12', io: 'input' });
}
