/**
 * Whether the description of an Arrow message or footer, a FlatBuffer, holds the lists that it says. The library goes
 * through a list for as long as its first four bytes say, which may be billions of entries that are not there.
 *
 * The places of fields are those of Message.fbs, Schema.fbs and File.fbs of the format, version 1.5.
 *
 * @throws RangeError where a list or a table lies outside of the bytes, or tables hold each other
 */
export function checkMessageMetadata(bytes: Uint8Array): void {
  const buffer = new FlatBuffer(bytes);
  const message = buffer.root();
  buffer.tables(message, 4);
  const header = buffer.table(message, 2);
  if (header === undefined) return;
  const kind = buffer.byte(message, 1);
  if (kind === 1) checkSchema(buffer, header);
  else if (kind === 3) checkRecordBatch(buffer, header);
  else if (kind === 2) {
    const batch = buffer.table(header, 1);
    if (batch !== undefined) checkRecordBatch(buffer, batch);
  }
}

/** The same of the footer of a file. */
export function checkFooter(bytes: Uint8Array): void {
  const buffer = new FlatBuffer(bytes);
  const footer = buffer.root();
  for (const list of [2, 3]) buffer.list(footer, list, 24);
  buffer.tables(footer, 4);
  const schema = buffer.table(footer, 1);
  if (schema !== undefined) checkSchema(buffer, schema);
}

function checkSchema(buffer: FlatBuffer, schema: number): void {
  for (const field of buffer.tables(schema, 1)) checkField(buffer, field);
  buffer.tables(schema, 2);
  buffer.list(schema, 3, 8);
}

function checkField(buffer: FlatBuffer, field: number): void {
  for (const child of buffer.tables(field, 5)) checkField(buffer, child);
  buffer.tables(field, 6);
}

function checkRecordBatch(buffer: FlatBuffer, batch: number): void {
  for (const list of [1, 2]) buffer.list(batch, list, 16);
  buffer.list(batch, 4, 8);
}

/** Tables and lists of a FlatBuffer by their places; every read outside of the bytes is a RangeError. */
class FlatBuffer {
  readonly #view: DataView;
  /** Tables may be shared, and so be met more often than there are bytes for them. */
  #left: number;

  constructor(bytes: Uint8Array) {
    this.#view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    this.#left = bytes.byteLength;
  }

  root(): number {
    return this.#view.getUint32(0, true);
  }

  byte(table: number, field: number): number {
    const at = this.#place(table, field);
    return at === undefined ? 0 : this.#view.getUint8(at);
  }

  table(table: number, field: number): number | undefined {
    const at = this.#place(table, field);
    return at === undefined ? undefined : this.#met(at + this.#view.getUint32(at, true));
  }

  /** @returns where the entries of a list begin, and how many there are */
  list(table: number, field: number, entryBytes: number): { start: number; length: number } {
    const at = this.#place(table, field);
    if (at === undefined) return { start: 0, length: 0 };
    const list = at + this.#view.getUint32(at, true);
    const length = this.#view.getUint32(list, true);
    if (list + 4 + length * entryBytes > this.#view.byteLength) throw new RangeError('a list is longer than the bytes');
    return { start: list + 4, length };
  }

  tables(table: number, field: number): number[] {
    const { start, length } = this.list(table, field, 4);
    return Array.from({ length }, (_, index) => {
      const at = start + 4 * index;
      return this.#met(at + this.#view.getUint32(at, true));
    });
  }

  #met(table: number): number {
    this.#left -= 1;
    if (this.#left < 0) throw new RangeError('tables hold each other');
    return table;
  }

  #place(table: number, field: number): number | undefined {
    const places = table - this.#view.getInt32(table, true);
    const at = 4 + 2 * field;
    if (at + 2 > this.#view.getUint16(places, true)) return undefined;
    const offset = this.#view.getUint16(places + at, true);
    return offset === 0 ? undefined : table + offset;
  }
}
