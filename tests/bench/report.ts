// How long `dryhold report` takes, how large its pages are, and how soon a page with 10,000 points can be used: `npm run bench:report`.
// Goals: 10,000 simulated jobs under 10 s, 1,000,000 drawn ones under 60 s, the start page under 1.5 MB, 10,000 points usable within 1 s.
// --small and --large take stores that are there, or make them there; --large none leaves the large one out. Every round is a process of its own.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import { version } from '@duckdb/node-api';
import { writeSimulated } from '../../src/cli/simulated-bundle.ts';
import { textTable } from '../../src/cli/text-table.ts';
import { quantile } from '../../src/numerics/quantile.ts';
import { simulateFleet } from '../../src/simulate/fleet.ts';
import { ingest } from '../../src/steps/ingest.ts';
import { judge } from '../../src/steps/judge.ts';
import { Store } from '../../src/store/store.ts';
import { hasChromium, startChromium } from '../pages/chromium.ts';
import { makeLargeFleetStore } from './large-fleet-store.ts';
import { pageOfPoints } from './page-of-points.ts';

const { values } = parseArgs({
  options: {
    small: { type: 'string' },
    large: { type: 'string' },
    rounds: { type: 'string', default: '3' },
    seed: { type: 'string', default: '1' },
  },
});
const folder = mkdtempSync(join(tmpdir(), 'dryhold-bench-report-'));
const alone = fileURLToPath(new URL('fleet-alone.ts', import.meta.url));
const seed = Number(values.seed);
const points = 10_000;

try {
  const small = values.small ?? join(folder, 'small');
  const large = values.large ?? join(folder, 'large');
  if (!existsSync(small)) await makeSmall(small);
  if (large !== 'none' && !existsSync(large))
    await makeLargeFleetStore(large, { jobs: 1_000_000, technicians: 2000, seed });
  console.log(
    `${cpus().length} cores (${cpus()[0]?.model.trim()}), Node ${process.versions.node}, DuckDB ${version()}; ${values.rounds} rounds, medians`,
  );
  const rows = [row('10,000 jobs', small, 10), ...(large === 'none' ? [] : [row('1,000,000 jobs', large, 60)])];
  console.log(
    textTable(
      ['report of', 'elapsed', 'goal', 'CPU', 'most memory', 'start page', 'largest page', 'pages', 'in all'],
      rows,
    ),
  );
  await pointsUsable();
} finally {
  rmSync(folder, { recursive: true, force: true });
}

async function makeSmall(store: string): Promise<void> {
  const bundle = join(folder, 'bundle');
  await writeSimulated(simulateFleet({ jobs: 10_000, seed }), bundle, () => undefined);
  const opened = await Store.open(store, 'write');
  try {
    await ingest(opened, [bundle]);
    await judge(opened);
  } finally {
    await opened.close();
  }
}

interface Round {
  readonly seconds: number;
  readonly cpuSeconds: number;
  readonly peakMiB: number;
}

function row(name: string, store: string, goalS: number): string[] {
  const out = join(folder, 'pages');
  const rounds = Array.from({ length: Number(values.rounds) }, (): Round => {
    const { stderr, status } = spawnSync(process.execPath, [alone, 'report', '--store', store, '--out', out]);
    if (status !== 0) throw new Error(stderr.toString());
    const round = JSON.parse(stderr.toString().trim().split('\n').at(-1) ?? '') as Round & { status: number };
    if (round.status !== 0) throw new Error(stderr.toString());
    return round;
  });
  const median = (of: (round: Round) => number): string => quantile(rounds.map(of), 0.5).toFixed(1);
  const bytes = readdirSync(out, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.html'))
    .map((file) => statSync(join(out, file)).size);
  const start = statSync(join(out, 'index.html')).size;
  return [
    name,
    `${median(({ seconds }) => seconds)} s`,
    `${goalS} s`,
    `${median(({ cpuSeconds }) => cpuSeconds)} s`,
    `${Math.max(...rounds.map(({ peakMiB }) => peakMiB)).toFixed(0)} MiB`,
    `${(start / 1e6).toFixed(3)} MB`,
    `${(Math.max(...bytes) / 1e6).toFixed(2)} MB`,
    String(bytes.length),
    `${(bytes.reduce((sum, each) => sum + each, 0) / 1e6).toFixed(0)} MB`,
  ];
}

/** How soon a page that shows so many points has drawn itself, and how long one choice of a filter takes. */
async function pointsUsable(): Promise<void> {
  if (!hasChromium) {
    console.log(`no /usr/bin/chromium: how soon ${points} points can be used was not measured`);
    return;
  }
  const file = join(folder, 'points.html');
  writeFileSync(file, await pageOfPoints(points, seed));
  const browser = await startChromium();
  try {
    const rounds: { readyS: number; drawnS: number; filteredS: number }[] = [];
    for (let round = 0; round < Number(values.rounds); round += 1) {
      const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
      const from = performance.now();
      await page.goto(pathToFileURL(file).href, { waitUntil: 'commit' });
      await page.waitForSelector('html[data-ready]', { state: 'attached' });
      const readyS = (performance.now() - from) / 1000;
      await page.waitForSelector('html[data-charts=drawn]', { state: 'attached' });
      const drawnS = (performance.now() - from) / 1000;
      const filteredS = await page.evaluate<number>(`new Promise((resolve) => {
        const select = document.querySelector('select[name=refrigerant]');
        const from = performance.now();
        select.selectedIndex = 1;
        select.dispatchEvent(new Event('change', { bubbles: true }));
        setTimeout(() => requestAnimationFrame(() => resolve((performance.now() - from) / 1000)));
      })`);
      rounds.push({ readyS, drawnS, filteredS });
      await page.close();
    }
    const median = (of: (round: (typeof rounds)[number]) => number): string => quantile(rounds.map(of), 0.5).toFixed(2);
    console.log(
      textTable(
        [`page with ${points} points`, 'elapsed', 'goal'],
        [
          ['its controls answer', `${median(({ readyS }) => readyS)} s`, ''],
          ['all is drawn', `${median(({ drawnS }) => drawnS)} s`, '1 s'],
          ['a filter is chosen, until all shows it', `${median(({ filteredS }) => filteredS)} s`, '1 s'],
        ],
      ),
    );
  } finally {
    await browser.close();
  }
}
