import { existsSync } from 'node:fs';
import { type Browser, chromium } from 'playwright-core';

const executablePath = '/usr/bin/chromium';

/** Whether there is a browser to look with. */
export const hasChromium = existsSync(executablePath);

/** Starts the browser, without any talk of its own. */
export function startChromium(): Promise<Browser> {
  const quiet = ['--disable-background-networking', '--disable-component-update', '--disable-sync', '--no-first-run'];
  const args = ['--no-sandbox', '--disable-gpu', '--disable-quic', ...quiet];
  return chromium.launch({ executablePath, headless: true, args });
}
