import { type FileHandle, open } from 'node:fs/promises';

const FLUSH_BYTES = 1 << 20;
/** Room for one more row after the buffer counts as full. */
const ROOM_BYTES = 65_536;
const COMMA = 44;
const powers = [1, 10, 100, 1000] as const;

/** What a field of a row may hold. */
export type CsvValue = string | number | boolean | undefined;

/** A CSV file (RFC 4180) written in chunks; `flushed` is awaited between rows, so that the disk sets the pace. */
export class CsvFile {
  readonly #handle: FileHandle;
  /** Filled while the other one is being written. */
  #bytes: Buffer = Buffer.allocUnsafe(FLUSH_BYTES + ROOM_BYTES);
  #other: Buffer | undefined;
  #writing: Promise<void> = Promise.resolve();
  #length = 0;
  #first = true;
  rows = 0;

  private constructor(handle: FileHandle) {
    this.#handle = handle;
  }

  /** Creates the file, with its header. */
  static async create(path: string, columns: readonly string[]): Promise<CsvFile> {
    const file = new CsvFile(await open(path, 'w'));
    for (const column of columns) file.text(column);
    file.endRow();
    file.rows = 0;
    return file;
  }

  /** Hands on what is buffered once there is much of it; must be awaited before the next row where it returns a promise. */
  flushed(): Promise<void> | undefined {
    return this.#length < FLUSH_BYTES ? undefined : this.#flush();
  }

  /** Waits for the write before this one, then starts the next and goes on. */
  async #flush(): Promise<void> {
    await this.#writing;
    const full = this.#bytes;
    const length = this.#length;
    this.#bytes = this.#other ?? Buffer.allocUnsafe(full.length);
    this.#other = full;
    this.#length = 0;
    this.#writing = writeAll(this.#handle, full, length);
    // A failure is reported by whoever awaits it next, not by the process.
    this.#writing.catch(() => {});
  }

  #separate(): void {
    if (this.#first) this.#first = false;
    else this.#bytes[this.#length++] = COMMA;
  }

  /** A field of text, quoted where it must be. */
  text(value: string): void {
    this.#separate();
    const quoted = /[",\r\n]/.test(value) ? `"${value.replaceAll('"', '""')}"` : value;
    this.#length += this.#bytes.write(quoted, this.#length, 'utf8');
  }

  /** A field already known to be plain ASCII without anything to quote. */
  bytes(value: Uint8Array): void {
    this.#separate();
    this.#bytes.set(value, this.#length);
    this.#length += value.length;
  }

  empty(): void {
    this.#separate();
  }

  /** A finite number with `decimals` places (0 to 3), trailing zeros left out. */
  fixed(value: number, decimals: 0 | 1 | 2 | 3): void {
    this.#separate();
    let scaled = Math.round(Math.abs(value) * powers[decimals]);
    let places: number = decimals;
    while (places > 0 && scaled % 10 === 0) {
      scaled /= 10;
      places--;
    }
    if (value < 0 && scaled > 0) this.#bytes[this.#length++] = 45;
    let digits = 1;
    for (let rest = scaled; rest >= 10; rest = Math.floor(rest / 10)) digits++;
    if (digits <= places) digits = places + 1;
    const width = digits + (places > 0 ? 1 : 0);
    let at = this.#length + width - 1;
    for (let index = 0; index < digits; index++) {
      if (places > 0 && index === places) this.#bytes[at--] = 46;
      this.#bytes[at--] = 48 + (scaled % 10);
      scaled = Math.floor(scaled / 10);
    }
    this.#length += width;
  }

  endRow(): void {
    this.#bytes[this.#length++] = 13;
    this.#bytes[this.#length++] = 10;
    this.#first = true;
    this.rows++;
  }

  /** A row of an object, its fields in the order of `columns`; an absent one stays empty. */
  row(columns: readonly string[], values: Readonly<Record<string, CsvValue>>): void {
    for (const column of columns) {
      const value = values[column];
      if (value === undefined) this.empty();
      else this.text(typeof value === 'string' ? value : String(value));
    }
    this.endRow();
  }

  async close(): Promise<void> {
    try {
      await this.#flush();
      await this.#writing;
    } finally {
      await this.#handle.close();
    }
  }
}

async function writeAll(handle: FileHandle, bytes: Buffer, length: number): Promise<void> {
  let fromByte = 0;
  while (fromByte < length) {
    const { bytesWritten } = await handle.write(bytes, fromByte, length - fromByte);
    fromByte += bytesWritten;
  }
}
