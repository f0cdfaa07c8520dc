import { crc32 } from 'node:zlib';

/** A file of an archive; flags, method and size as its headers say them, for archives that are wrong on purpose. */
export interface ZippedFile {
  readonly name: string;
  readonly content: string | Buffer;
  readonly flags?: number;
  readonly method?: number;
  readonly unpackedBytes?: number;
  /** Of what is packed by another method: the CRC-32 of what it unpacks to. */
  readonly checksum?: number;
}

/** A ZIP archive (APPNOTE 6.3.10) that stores its files as they are, dated 1980-01-01: equal content, equal bytes. */
export function storedZip(files: readonly ZippedFile[]): Buffer {
  const locals: Buffer[] = [];
  const directory: Buffer[] = [];
  let offset = 0;
  for (const file of files) {
    const name = Buffer.from(file.name);
    const content = Buffer.from(file.content as string);
    const common = Buffer.alloc(26);
    common.writeUInt16LE(20, 0);
    common.writeUInt16LE(0x0800 | (file.flags ?? 0), 2);
    common.writeUInt16LE(file.method ?? 0, 4);
    common.writeUInt16LE(0x21, 8);
    common.writeUInt32LE(file.checksum ?? crc32(content), 10);
    common.writeUInt32LE(content.length, 14);
    common.writeUInt32LE(file.unpackedBytes ?? content.length, 18);
    common.writeUInt16LE(name.length, 22);
    locals.push(Buffer.from('PK\x03\x04'), common, name, content);
    const place = Buffer.alloc(14);
    place.writeUInt32LE(offset, 10);
    directory.push(Buffer.from('PK\x01\x02\x14\x00'), common, place, name);
    offset += 30 + name.length + content.length;
  }
  const central = Buffer.concat(directory);
  const end = Buffer.alloc(18);
  end.writeUInt16LE(files.length, 4);
  end.writeUInt16LE(files.length, 6);
  end.writeUInt32LE(central.length, 8);
  end.writeUInt32LE(offset, 12);
  return Buffer.concat([...locals, central, Buffer.from('PK\x05\x06'), end]);
}
