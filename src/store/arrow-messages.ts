import { closeSync, openSync, readSync, statSync } from 'node:fs';
import { Message } from 'apache-arrow';
import { Footer } from 'apache-arrow/ipc/metadata/file';
import { checkFooter, checkMessageMetadata } from './arrow-metadata.ts';

/** What a file of the Arrow file format begins and ends with; a stream has neither. */
const magic = 'ARROW1';
/** The description of a batch, and the batch itself, are held in memory: larger ones are refused [bytes]. */
const mostMetadataBytes = 16 * 1024 * 1024;
const mostBodyBytes = 512 * 1024 * 1024;

/**
 * The messages of an Arrow IPC file or stream, one by one, as a stream. The library believes what a file says of its own
 * lengths, and reads in circles where these lead back; here each lies behind the one before, and within the file.
 *
 * @throws Error that says what is wrong with the file
 */
export function* arrowMessages(path: string): Generator<Uint8Array> {
  const { size } = statSync(path);
  const isFile = bytesAt(path, 0, Math.min(size, magic.length)).toString() === magic;
  const end = isFile ? footerAt(path, size) : size;
  let at = isFile ? 8 : 0;
  let begun = !isFile;
  while (at + 4 <= end) {
    const head = bytesAt(path, at, Math.min(8, end - at));
    // Before version 0.15 of the format the length stood alone.
    const marked = head.readInt32LE(0) === -1;
    if (marked && head.length < 8) throw new Error('it breaks off');
    const length = head.readInt32LE(marked ? 4 : 0);
    const start = at + (marked ? 8 : 4);
    if (length === 0) break;
    if (length < 0 || length > mostMetadataBytes || start + length > end)
      throw new Error(`the message at byte ${at} says a length that cannot be`);
    const metadata = bytesAt(path, start, length);
    checkMessageMetadata(metadata);
    const message = Message.decode(metadata);
    // Not every writer repeats at the top of a file the schema that stands in its footer.
    if (!begun && !message.isSchema()) yield schemaMessage(bytesAt(path, end, size - end));
    begun = true;
    const { bodyLength } = message;
    if (!(bodyLength >= 0) || start + length + bodyLength > end)
      throw new Error(`the message at byte ${at} holds less than it says`);
    if (bodyLength > mostBodyBytes)
      throw new Error(`a batch of it is larger than ${mostBodyBytes / 1024 ** 2} MiB; write it in smaller ones`);
    yield head.subarray(0, marked ? 8 : 4);
    yield metadata;
    if (bodyLength > 0) yield bytesAt(path, start + length, bodyLength);
    at = start + length + bodyLength;
  }
  if (!begun) yield schemaMessage(bytesAt(path, end, size - end));
}

/** The schema of a file's footer as the first message of a stream. */
function schemaMessage(footer: Buffer): Buffer {
  const described = footer.subarray(0, -10);
  checkFooter(described);
  const metadata = Message.encode(Message.from(Footer.decode(described).schema));
  const head = Buffer.alloc(8, 0xff);
  const padding = -metadata.length & 7;
  head.writeInt32LE(metadata.length + padding, 4);
  return Buffer.concat([head, metadata, Buffer.alloc(padding)]);
}

/** Where the footer of a file begins, and so its messages end. */
function footerAt(path: string, size: number): number {
  const tail = size < 18 ? Buffer.alloc(10) : bytesAt(path, size - 10, 10);
  if (tail.toString('latin1', 4) !== magic) throw new Error('its end is missing');
  const length = tail.readInt32LE(0);
  if (length < 0 || length > size - 18) throw new Error('its footer says a length that cannot be');
  return size - 10 - length;
}

/** Opened for each piece: who leaves the rows before their end leaves nothing open. */
function bytesAt(path: string, position: number, length: number): Buffer {
  const bytes = Buffer.alloc(length);
  const file = openSync(path, 'r');
  try {
    for (let read = 0; read < length; ) {
      const more = readSync(file, bytes, read, length - read, position + read);
      if (more === 0) throw new Error('it breaks off');
      read += more;
    }
  } finally {
    closeSync(file);
  }
  return bytes;
}
