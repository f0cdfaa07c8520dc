import { join } from 'node:path';
import { crc32, deflateRawSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { storedZip, type ZippedFile } from '../stored-zip.ts';
import { byFileName, mappedLog, takeIn } from './take-in.ts';

const namespace = 'http://schemas.openxmlformats.org';
const part = (name: string, content: string): ZippedFile => ({ name, content });

/** A part as a workbook packs it: what repeats takes next to no room. */
function packedPart(name: string, content: Buffer): ZippedFile {
  return {
    name,
    content: deflateRawSync(content, { level: 9 }),
    method: 8,
    unpackedBytes: content.length,
    checksum: crc32(content),
  };
}

/** A workbook of one sheet, from the XML of its rows. */
function workbook(rows: string | Buffer, further: ZippedFile[] = [], texts = 'sharedStrings.xml'): Buffer {
  const sheet = Buffer.concat([
    Buffer.from(`<worksheet xmlns="${namespace}/spreadsheetml/2006/main"><sheetData>`),
    Buffer.from(rows as string),
    Buffer.from('</sheetData></worksheet>'),
  ]);
  const relation = (id: string, type: string, target: string) =>
    `<Relationship Id="${id}" Type="${namespace}/officeDocument/2006/relationships/${type}" Target="${target}"/>`;
  const relations = (inner: string) =>
    `<Relationships xmlns="${namespace}/package/2006/relationships">${inner}</Relationships>`;
  return storedZip([
    part('[Content_Types].xml', `<Types xmlns="${namespace}/package/2006/content-types"/>`),
    part('_rels/.rels', relations(relation('rId1', 'officeDocument', 'xl/workbook.xml'))),
    part(
      'xl/workbook.xml',
      `<workbook xmlns:r="${namespace}/officeDocument/2006/relationships"><sheets><sheet name="A" sheetId="1" r:id="rId1"/></sheets></workbook>`,
    ),
    part(
      'xl/_rels/workbook.xml.rels',
      relations(relation('rId1', 'worksheet', 'worksheets/sheet1.xml') + relation('rId2', 'sharedStrings', texts)),
    ),
    packedPart('xl/worksheets/sheet1.xml', sheet),
    ...further,
  ]);
}

const text = (value: string, at = '') => `<c${at && ` r="${at}"`} t="inlineStr"><is><t>${value}</t></is></c>`;
const number = (value: number, at = '') => `<c${at && ` r="${at}"`}><v>${value}</v></c>`;
const head = `<row r="1">${text('t', 'A1')}${text('v', 'B1')}</row>`;
const good = `<row r="2">${number(0, 'A2')}${number(500, 'B2')}</row>`;

/** Takes a workbook in beside a good file. */
async function beside(content: Buffer) {
  const { sources, refused, jobs } = await takeIn(
    { 'in/book.xlsx': content, 'in/good.csv': mappedLog },
    { map: byFileName },
  );
  expect(jobs.good).toBe(2);
  return { counts: sources[join('in', 'book.xlsx')], refused: refused[join('in', 'book.xlsx')] };
}

describe('sheets that are larger than they look', () => {
  test('the last cell of all, and one far down', async () => {
    const far = `<row r="1048576">${number(10, 'A1048576')}${number(400, 'B1048576')}</row>`;
    expect(await beside(workbook(head + good + far))).toEqual({ counts: [2, 2, 0], refused: undefined });
    const { refused } = await beside(workbook(`${head}${good}<row r="1048576">${number(1, 'XFD1048576')}</row>`));
    expect(refused).toBe('no workbook that can be read (row 1048576 has more than 4096 cells)');
  });

  test.each([
    ['XFE1', 'outside the supported sheet bounds'],
    ['ZZZZZZZZ1', 'no workbook that can be read'],
    [`${'A'.repeat(100)}1`, 'no workbook that can be read'],
  ])('a cell at %s', async (at, problem) => {
    expect((await beside(workbook(`${head}<row r="2">${number(1, at)}</row>`))).refused).toContain(problem);
  });

  test('a row of a million cells', async () => {
    const { refused } = await beside(workbook(`${head}<row r="2">${number(1).repeat(1e6)}</row>`));
    expect(refused).toContain('no workbook that can be read');
  });

  test.each(['<row r="1e9">', '<row r="-5">', '<row r="NaN">', '<row>'])('rows numbered by %s', async (row) => {
    const { counts, refused } = await beside(workbook(`${head}${row}${number(0)}${number(500)}</row>`));
    expect(counts ?? refused).toBeDefined();
  });
});

describe('workbooks that unpack to more than a reader bears', () => {
  const filled = (text: string, mib: number) => Buffer.alloc(mib * 2 ** 20, text);
  test.each<[string, Buffer, ZippedFile[], string]>([
    [
      'shared texts',
      Buffer.from(good),
      [packedPart('xl/sharedStrings.xml', filled('<si/>', 40))],
      'more than 5000000 tags',
    ],
    ['rows', filled('<row/>', 8), [], 'more than 1048576 rows'],
    ['rows of another name space', filled('<x:row/>', 10), [], 'more than 1048576 rows'],
    ['a comment without an end', filled('<!-- ', 5), [], 'has a text, a comment or a tag of more than 4 MiB'],
    ['a text without an end', filled(' ', 5), [], 'has a text, a comment or a tag of more than 4 MiB'],
    ['a part that is there twice', Buffer.from(good), [part('xl/workbook.xml', '')], 'it holds xl/workbook.xml twice'],
  ])('%s', async (_, rows, further, problem) => {
    const { refused } = await beside(workbook(Buffer.concat([Buffer.from(head), rows]), further));
    expect(refused).toContain(problem);
  });

  test('shared texts that are said to stand in a sheet', async () => {
    const { refused } = await beside(workbook(head + good, [], 'worksheets/sheet1.xml'));
    expect(refused).toContain('is called as no such part is');
  });
});

test('entities that would multiply are not expanded, and none is fetched', async () => {
  const doctype =
    '<!DOCTYPE x [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;"><!ENTITY f SYSTEM "file:///etc/hostname">]>';
  const rows = `${head}<row r="2">${text('&b;&f;', 'A2')}${number(500, 'B2')}</row>${good.replaceAll('2"', '3"')}`;
  const { counts } = await beside(workbook(doctype + rows));
  expect(counts).toEqual([2, 1, 1]);
});

test('formulas are their last results', async () => {
  const formula = `<row r="2"><c r="A2"><f>1+1</f><v>7</v></c><c r="B2" t="str"><f>WEBSERVICE("http://example.invalid")</f><v>500</v></c></row>`;
  expect((await beside(workbook(head + formula))).counts).toEqual([1, 1, 0]);
});
