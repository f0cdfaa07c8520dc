import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { PageFolder } from '../../src/steps/report/page-folder.ts';
import { tempFolder } from '../store/temp-store.ts';

const pagesIn = (folder: string) =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name !== '.dryhold-pages')
    .map(({ name }) => name)
    .sort();

async function written(folder: string, files: readonly string[], text = 'page'): Promise<void> {
  const pages = PageFolder.open(folder, ['html']);
  for (const file of files) await pages.write(file, text);
  await pages.close();
}

test('pages of an earlier report that are no more go; what else lies there stays', async () => {
  const folder = join(tempFolder(), 'deep', 'report');
  await written(folder, ['jobs/a.html', 'jobs/b.html', 'sheets/t.html', 'index.html'], 'first');
  const foreign = ['jobs/mine.html', 'sheets/notes.txt', 'letter.html'];
  for (const file of foreign) writeFileSync(join(folder, file), 'mine');
  await written(folder, ['jobs/b.html', 'jobs/c.html', 'index.html'], 'second');
  expect(pagesIn(folder)).toEqual(['b.html', 'c.html', 'index.html', 'letter.html', 'mine.html', 'notes.txt']);
  for (const file of foreign) expect(readFileSync(join(folder, file), 'utf8')).toBe('mine');
  for (const file of ['jobs/b.html', 'jobs/c.html', 'index.html'])
    expect(readFileSync(join(folder, file), 'utf8')).toBe('second');
});

test('each format replaces its own files, and says how many of others stay; folders of charts that are no more go', async () => {
  const folder = tempFolder();
  const write = async (endings: readonly string[], files: readonly string[]): Promise<number> => {
    const pages = PageFolder.open(folder, endings);
    for (const file of files) await pages.write(file, 'x');
    return pages.close();
  };
  expect(await write(['html'], ['jobs/a.html', 'index.html'])).toBe(0);
  const charts = ['charts/jobs/a/rise-trace.svg', 'charts/owner/leak-rates.svg', 'specs/owner/leak-rates.vl.json'];
  expect(await write(['svg', 'vl.json'], charts)).toBe(2);
  expect(await write(['svg'], ['charts/owner/leak-rates-2.svg'])).toBe(3);
  expect(readdirSync(join(folder, 'charts', 'owner'))).toEqual(['leak-rates-2.svg']);
  expect(existsSync(join(folder, 'charts', 'jobs', 'a'))).toBe(false);
  expect(existsSync(join(folder, 'specs', 'owner', 'leak-rates.vl.json'))).toBe(true);
  expect(existsSync(join(folder, 'jobs', 'a.html'))).toBe(true);
});

test('two reports of one folder at once each keep what the other wrote, and the next one knows all of it', async () => {
  const folder = tempFolder();
  const [pages, pictures] = [PageFolder.open(folder, ['html']), PageFolder.open(folder, ['svg'])];
  await pages.write('jobs/a.html', 'x');
  await pictures.write('charts/jobs/a/rise-trace.svg', 'x');
  await pages.close();
  await pictures.write('charts/jobs/b/rise-trace.svg', 'x');
  await pictures.close();
  expect(pagesIn(folder)).toEqual(['a.html', 'rise-trace.svg', 'rise-trace.svg']);
  expect(await PageFolder.open(folder, ['html', 'svg']).close()).toBe(0);
  expect(pagesIn(folder)).toEqual([]);
});

test('a run that was killed before it ended leaves nothing that the next would not know', async () => {
  const folder = tempFolder();
  await written(folder, ['jobs/a.html', 'jobs/b.html']);
  const killed = PageFolder.open(folder, ['html']);
  await killed.write('jobs/c.html', 'half of it');
  await killed.write('sheets/t.html', 'half of it');
  // Killed here: nothing of an earlier report is gone yet.
  expect(pagesIn(folder)).toEqual(['a.html', 'b.html', 'c.html', 't.html']);
  await written(folder, ['jobs/b.html']);
  expect(pagesIn(folder)).toEqual(['b.html']);
});

test('a list that somebody wrote into removes nothing but pages of the folder', async () => {
  const around = tempFolder();
  const folder = join(around, 'report');
  mkdirSync(folder);
  const kept = ['precious.html', 'report/index.html', 'report/jobs.html'];
  for (const file of kept) writeFileSync(join(around, file), 'kept');
  writeFileSync(
    join(folder, '.dryhold-pages'),
    [
      '../precious.html',
      'jobs/../../precious.html',
      'index.html',
      'jobs.html',
      '/etc/hostname',
      'jobs/..html',
      '',
    ].join('\n'),
  );
  await written(folder, ['jobs/a.html']);
  for (const file of kept) expect(existsSync(join(around, file))).toBe(true);
});

test('the folders are made though no page is in them', async () => {
  const folder = tempFolder();
  await written(folder, []);
  expect(readdirSync(folder).sort()).toEqual(['.dryhold-pages', 'jobs', 'sheets']);
});
