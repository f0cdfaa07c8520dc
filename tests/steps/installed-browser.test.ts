import { chmodSync, readdirSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { DryholdError } from '../../src/errors.ts';
import { installedBrowser } from '../../src/steps/paper/installed-browser.ts';
import { PagePrinter } from '../../src/steps/paper/page-printer.ts';
import { hasChromium } from '../pages/chromium.ts';
import { tempFolder } from '../store/temp-store.ts';

const refusal = (environment: NodeJS.ProcessEnv): string => {
  try {
    return `found ${installedBrowser(environment)}`;
  } catch (error) {
    if (!(error instanceof DryholdError)) throw error;
    return `${error.exitStatus}: ${error.message}`;
  }
};

test('the browser that the environment names counts before those on the search path', () => {
  const folder = tempFolder();
  const [chromium, other] = ['chromium', 'other'].map((name) => join(folder, name));
  for (const path of [chromium, other]) {
    writeFileSync(path, '');
    chmodSync(path, 0o755);
  }
  expect(installedBrowser({ PATH: folder })).toBe(chromium);
  expect(installedBrowser({ PATH: folder, DRYHOLD_BROWSER: other })).toBe(other);
  expect(installedBrowser({ PATH: `${join(folder, 'none')}:${folder}`, DRYHOLD_BROWSER: '' })).toBe(chromium);
});

test('without one it says what to do', () => {
  const todo =
    'printing to PDF needs an installed chromium, Chrome or Edge; install one, name it in DRYHOLD_BROWSER, or open the pages in any browser and print them there';
  if (process.platform === 'linux')
    expect(refusal({ PATH: tempFolder() })).toBe(`3: no chromium, Chrome or Edge was found: ${todo}`);
  const none = join(tempFolder(), 'none');
  expect(refusal({ PATH: '', DRYHOLD_BROWSER: none })).toBe(
    `3: DRYHOLD_BROWSER names ${none}, which cannot be run: ${todo}`,
  );
});

test.skipIf(!hasChromium)('one that ends while it prints says so in a line, and leaves nothing', async () => {
  const left = () => readdirSync(tmpdir()).filter((name) => name.startsWith(`dryhold-browser-${process.pid}-`));
  const printer = await PagePrinter.open('a4');
  expect(left()).toHaveLength(1);
  await printer.close();
  expect(left()).toEqual([]);
  await expect(printer.print('<p>late')).rejects.toThrow(
    /^the browser broke off while it printed \([^\n]+\): run it again/,
  );
});

test('one that does not start says so in a line', async () => {
  const path = join(tempFolder(), 'chromium');
  writeFileSync(path, '#!/bin/sh\nexit 7\n');
  chmodSync(path, 0o755);
  const before = process.env.DRYHOLD_BROWSER;
  process.env.DRYHOLD_BROWSER = path;
  try {
    await expect(PagePrinter.open('a4')).rejects.toThrow(
      /^[^\n]*chromium does not start \([^\n]+\): printing to PDF needs/,
    );
  } finally {
    if (before === undefined) delete process.env.DRYHOLD_BROWSER;
    else process.env.DRYHOLD_BROWSER = before;
  }
});
