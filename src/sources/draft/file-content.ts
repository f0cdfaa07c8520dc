import { fileKindOf } from '../file-kinds.ts';
import type { FileKind, TextEncoding } from '../source-file.ts';
import { markedEncoding } from '../text-blocks.ts';
import { closedJson } from './json-sample.ts';

/** What a file turned out to be; texts decoded. */
export type FileContent =
  | {
      readonly kind: 'csv' | 'json' | 'ndjson';
      readonly text: string;
      readonly encoding: TextEncoding;
      readonly marked: boolean;
    }
  | { readonly kind: 'xlsx' | 'parquet' | 'arrow' }
  | { readonly problem: string };

/** Files that are told by their first bytes and cannot be taken in, with what to do. */
const strangers: readonly (readonly [begin: string, problem: string])[] = [
  ['\u00d0\u00cf\u0011\u00e0', 'it is a workbook of the old kind (.xls); save it as .xlsx or as CSV'],
  ['%PDF', 'it is a PDF; export the log as CSV, JSON or .xlsx instead'],
  ['SQLite format 3', 'it is a database; export its tables as CSV'],
  ['\u0089PNG', 'it is a picture'],
  ['\u00ff\u00d8\u00ff', 'it is a picture'],
  ['<?xml', 'it is XML, which no source map reads; export CSV or JSON instead'],
  ['<!DOCTYPE', 'it is a web page; export CSV or JSON instead'],
  ['<html', 'it is a web page; export CSV or JSON instead'],
  ['7z\u00bc\u00af', 'it is packed in a way that is not known here; unpack it first'],
  ['Rar!', 'it is packed in a way that is not known here; unpack it first'],
];

/**
 * What a file is, by its first bytes and, where these leave a choice, by its name.
 *
 * @param bytes the first part of the file
 * @param complete whether that is all of it
 */
export function fileContent(name: string, bytes: Buffer, complete: boolean): FileContent {
  if (bytes.length === 0) return { problem: 'the file is empty' };
  const begin = bytes.toString('latin1', 0, 512);
  const stranger = strangers.find(([mark]) => begin.replace(/^ï»¿/, '').trimStart().startsWith(mark));
  if (stranger !== undefined) return { problem: stranger[1] };
  if (begin.startsWith('PAR1')) return { kind: 'parquet' };
  if (begin.startsWith('ARROW1') || begin.startsWith('\u00ff\u00ff\u00ff\u00ff')) return { kind: 'arrow' };
  if (begin.startsWith('PK\u0003\u0004')) return { kind: 'xlsx' };
  const marked = markedEncoding(bytes);
  const encoding = marked ?? unmarkedEncoding(bytes);
  if (encoding === undefined)
    return { problem: 'it holds bytes that are no text; export the log as CSV, JSON or .xlsx' };
  const text = decoded(bytes, encoding, complete);
  if (text.trim() === '') return { problem: 'the file holds nothing but blank lines' };
  return { kind: textKind(name, text, complete), text, encoding, marked: marked !== undefined };
}

/** An encoding by the bytes themselves; undefined where they are no text. */
function unmarkedEncoding(bytes: Buffer): TextEncoding | undefined {
  const sample = bytes.subarray(0, 1 << 16);
  const nulls = [0, 0];
  for (let index = 0; index < sample.length; index += 1) if (sample[index] === 0) nulls[index % 2] += 1;
  const half = sample.length / 2;
  // A UTF-16 text of mostly Latin letters has a NUL byte beside each.
  if (nulls[1] > half * 0.6 && nulls[0] < half * 0.05) return 'utf-16le';
  if (nulls[0] > half * 0.6 && nulls[1] < half * 0.05) return 'utf-16be';
  if (nulls[0] + nulls[1] > 0) return undefined;
  const controls = sample.reduce((sum, byte) => sum + Number(byte < 9 || (byte > 13 && byte < 32 && byte !== 27)), 0);
  if (controls > sample.length / 200) return undefined;
  return isUtf8(bytes) ? 'utf-8' : 'windows-1252';
}

/** Whether bytes are UTF-8; a character that the end cuts in two does not count. */
function isUtf8(bytes: Buffer): boolean {
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(bytes, { stream: true });
    return true;
  } catch {
    return false;
  }
}

function decoded(bytes: Buffer, encoding: TextEncoding, complete: boolean): string {
  return new TextDecoder(encoding).decode(bytes, { stream: !complete });
}

function textKind(name: string, text: string, complete: boolean): 'csv' | 'json' | 'ndjson' {
  const begin = text.trimStart();
  if (!/^[[{]/.test(begin)) return 'csv';
  const named: FileKind['id'] | undefined = fileKindOf(name)?.id;
  const lines = begin.split('\n').map((line) => line.trim());
  const [first, second] = lines.filter((line) => line !== '');
  if (isJson(first) && begin.startsWith('{')) {
    if (second?.startsWith('{')) return 'ndjson';
    if (second === undefined) return named === 'ndjson' ? 'ndjson' : 'json';
  }
  if (complete ? isJson(begin) : closedJson(begin) !== undefined) return 'json';
  if (named === 'json' || named === 'ndjson') return named;
  return 'csv';
}

function isJson(text: string | undefined): boolean {
  try {
    JSON.parse(text ?? '');
    return true;
  } catch {
    return false;
  }
}
