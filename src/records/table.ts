import { z } from 'zod';
import { type ColumnMeta, columnMeta } from './column.ts';

/** A table of the interchange bundle: what a row is, how rows are told apart, and the zod schema of its columns. */
export interface Table<Shape extends z.ZodRawShape = z.ZodRawShape> {
  readonly name: string;
  /** One row per what. */
  readonly rowIs: string;
  /** The columns that tell rows apart. */
  readonly key: readonly string[];
  readonly schema: z.ZodObject<Shape, z.core.$strict>;
}

/** A row of a table, typed. */
export type RowOf<T extends Table> = z.infer<T['schema']>;

/** One column of a table, flattened for readers, stores and glossaries. */
export interface Column extends ColumnMeta {
  readonly name: string;
  readonly required: boolean;
}

/** Declares a table. */
export function table<Shape extends z.ZodRawShape>(
  name: string,
  rowIs: string,
  key: readonly (keyof Shape & string)[],
  shape: Shape,
): Table<Shape> {
  return {
    name,
    rowIs,
    key,
    schema: z.strictObject(shape).meta({ title: name, description: `One row per ${rowIs}.` }),
  };
}

/** The columns of a table, in their order. */
export function columnsOf(of: Table): Column[] {
  return Object.entries(of.schema.shape).map(([name, schema]) => {
    const column = schema as z.ZodType;
    return { name, required: !(column instanceof z.ZodOptional), ...columnMeta(column) };
  });
}
