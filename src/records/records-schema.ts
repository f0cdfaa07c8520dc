import { z } from 'zod';
import type { Table } from './table.ts';

/**
 * The JSON Schema (2020-12) of tables: a definition per table for one row (`#/$defs/jobs`), and as a whole one object
 * that holds a list of rows under each table's name.
 */
export function recordsSchema(tables: readonly Table[]): object {
  const names = tables.map(({ name }) => name);
  return {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    title: 'dryhold records',
    type: 'object',
    properties: Object.fromEntries(names.map((name) => [name, { type: 'array', items: { $ref: `#/$defs/${name}` } }])),
    additionalProperties: false,
    $defs: Object.fromEntries(tables.map((table) => [table.name, rowSchema(table)])),
  };
}

function rowSchema(table: Table): object {
  const { $schema: _, ...row } = z.toJSONSchema(table.schema, { target: 'draft-2020-12', io: 'input' });
  return row;
}
