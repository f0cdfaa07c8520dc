import { type Data, DataType } from 'apache-arrow';

/**
 * What is wrong with a column of a batch, or undefined: the file says how many rows it holds, and where each text lies, and
 * neither need be so. A few bytes may promise a billion rows.
 *
 * @param rows how many rows the batch is said to hold
 */
export function columnFault(data: Data, rows: number): string | undefined {
  const { type } = data;
  if (data.length < rows) return `a column holds ${data.length} of ${rows} rows`;
  if (DataType.isNull(type)) return undefined;
  if (data.nullCount > 0 && data.nullBitmap !== undefined && data.nullBitmap.length * 8 < rows)
    return `it says ${rows} rows, and does not hold them`;
  const { valueOffsets, values } = data as { valueOffsets?: ArrayLike<number | bigint>; values?: ArrayLike<unknown> };
  if (hasOffsets(type))
    return offsetsFault(valueOffsets ?? [], rows, data.children.at(0)?.length ?? values?.length ?? 0);
  const held = DataType.isBool(type) ? (values?.length ?? 0) * 8 : (values?.length ?? 0) / data.stride;
  if (!DataType.isStruct(type) && !DataType.isFixedSizeList(type) && held < rows)
    return `it says ${rows} rows, and holds ${Math.floor(held)} of them`;
  const each = DataType.isFixedSizeList(type) ? type.listSize : 1;
  return data.children.map((child) => columnFault(child, rows * each)).find((fault) => fault !== undefined);
}

function hasOffsets(type: DataType): boolean {
  return (
    DataType.isUtf8(type) ||
    DataType.isLargeUtf8(type) ||
    DataType.isBinary(type) ||
    DataType.isLargeBinary(type) ||
    DataType.isList(type) ||
    DataType.isMap(type)
  );
}

function offsetsFault(offsets: ArrayLike<number | bigint>, rows: number, held: number): string | undefined {
  if (rows > 0 && offsets.length < rows + 1)
    return `it says ${rows} rows, and holds ${Math.max(0, offsets.length - 1)}`;
  let before = 0;
  for (let row = 0; row < rows + 1 && row < offsets.length; row += 1) {
    const offset = Number(offsets[row]);
    if (offset < before || offset > held) return 'a value lies outside of what it holds';
    before = offset;
  }
  return undefined;
}
