import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';
import { DryholdError } from '../../errors.ts';

/** Names the browser to print with, where another is wanted than the first one found. */
export const browserVariable = 'DRYHOLD_BROWSER';

/** What browsers that can print without a window are called on the search path. */
const commands = [
  'chromium',
  'chromium-browser',
  'google-chrome',
  'google-chrome-stable',
  'microsoft-edge',
  'microsoft-edge-stable',
];

const macPrograms = ['Chromium', 'Google Chrome', 'Microsoft Edge'].map(
  (name) => `/Applications/${name}.app/Contents/MacOS/${name}`,
);

const windowsPrograms = [
  ['Google', 'Chrome', 'Application', 'chrome.exe'],
  ['Chromium', 'Application', 'chrome.exe'],
  ['Microsoft', 'Edge', 'Application', 'msedge.exe'],
];

/**
 * The browser that prints pages: the one that the environment names, else the first of its kind on the search path or where the system keeps
 * its programs. Nothing is fetched.
 *
 * @returns its path
 * @throws DryholdError `browser-missing`
 */
export function installedBrowser(environment: NodeJS.ProcessEnv = process.env): string {
  const named = environment[browserVariable];
  if (named !== undefined && named !== '') {
    if (canRun(named)) return named;
    throw new DryholdError('browser-missing', { problem: `${browserVariable} names ${named}, which cannot be run` });
  }
  const found = [...onPath(environment), ...macPrograms, ...inPrograms(environment)].find(canRun);
  if (found !== undefined) return found;
  throw new DryholdError('browser-missing', { problem: 'no chromium, Chrome or Edge was found' });
}

function onPath({ PATH = '' }: NodeJS.ProcessEnv): string[] {
  const folders = PATH.split(delimiter).filter((folder) => folder !== '');
  return commands.flatMap((command) => folders.map((folder) => join(folder, command)));
}

function inPrograms(environment: NodeJS.ProcessEnv): string[] {
  return ['PROGRAMFILES', 'PROGRAMFILES(X86)', 'LOCALAPPDATA'].flatMap((name) => {
    const folder = environment[name];
    return folder === undefined ? [] : windowsPrograms.map((parts) => join(folder, ...parts));
  });
}

function canRun(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
