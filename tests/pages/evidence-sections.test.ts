import { expect, test } from 'vitest';
import type { JobEvidence } from '../../src/pages/job-evidence-data.ts';
import type { UnitSystem } from '../../src/units/display.ts';
import { sampleJobs } from './job-sample.ts';
import { readJobPage } from './read-job-page.ts';

const [job] = sampleJobs();

test('tells of a job what happened, once, and folds away what passed or could not be judged', async () => {
  const page = await readJobPage(job);
  expect(job.story.length).toBeGreaterThan(0);
  for (const paragraph of job.story) expect(page.split(paragraph)).toHaveLength(2);
  const [, folded = ''] =
    /Other checks on this job: 1 pass, 2 not evaluated, 1 missing([^]*?)<\/details>/.exec(page) ?? [];
  // One reason, two questions.
  expect(page.split('No steady run was recorded.')).toHaveLength(2);
  expect(folded).toContain('Is the subcooling near its target? Is the superheat near its target?');
  expect(folded).toContain('Was the vacuum held as long as asked for?');
  expect(folded.match(/class="tag pass"/g)).toHaveLength(1);
});

test('says of each judgement what it could not have seen: under what is flagged, after the words of what passed', async () => {
  const page = await readJobPage(job);
  expect(page).toContain('<p class="quiet">Could not have seen: how much water it is, and where.</p>');
  const [, folded = ''] = /Other checks on this job([^]*?)<\/details>/.exec(page) ?? [];
  expect(folded).toContain('15 min asked for. Could not have seen: what walls and oil went on giving off');
  const said = job.findings.filter(({ unseen }) => unseen !== '');
  expect(said).toHaveLength(3);
  expect(page.split('Could not have seen:')).toHaveLength(1 + said.length);
});

/** The keys of the charts of the job, changed. */
async function keysOf(other: Partial<JobEvidence>, units: UnitSystem = 'ip'): Promise<string[]> {
  const page = await readJobPage({ ...job, ...other }, units);
  return [...page.matchAll(/<ul class="key">(.*?)<\/ul>/g)].map(([, key = '']) => key.replace(/<[^>]+>/g, '|'));
}

test('the pressure test stands before the vacuum, and the key of its hold tells the drop', async () => {
  const { pressureTest } = job;
  if (!pressureTest) throw new Error('the sample has no pressure test');
  const [hold, vacuum] = await keysOf({});
  expect(vacuum).toContain('above the gauge’s range');
  expect(hold).toContain('a tight system: 0');
  expect(hold).toContain('drop: 2.0 psi (0.9 to 3.1 psi, 95 %)');
  expect(hold).toContain('settling, left out: 5 min');
  expect(hold).toContain(
    'pipe: 69.5 to 62.3 °F, on the way 58.7 to 74.9 °F; the gas went along with about 70 % of that',
  );
  const [si] = await keysOf({}, 'si');
  expect(si).toContain('drop: 0.138 bar (0.062 to 0.214 bar, 95 %)');
  expect(si).toContain('pipe: 20.9 to 16.9 °C, on the way 14.9 to 23.9 °C');
  const [risen] = await keysOf({
    pressureTest: { ...pressureTest, drop: { pa: -55_158, lowPa: -137_895, highPa: 27_579 } },
  });
  expect(risen).toContain('no drop: rose by 8 psi (95 %: between a rise of 20 psi and a drop of 4 psi)');
  const near = { heldK: 294, endK: 290, coldestK: 289.5, warmestK: 294.5 };
  const [close] = await keysOf({ pressureTest: { ...pressureTest, line: near, followingRatio: 0.95 } });
  expect(close).toMatch(/pipe: 69.5 to 62.3 °F[|]/);
  const far = [...pressureTest.limits, { label: 'low side rated', pa: 8e6 }];
  const [above] = await keysOf({ pressureTest: { ...pressureTest, limits: far } });
  expect(above).toContain('low side rated: 1\u00a0145.6 psig, above this chart');
});

test('without a temperature the key says what is missing, and the question promises nothing', async () => {
  if (!job.pressureTest) throw new Error('the sample has no pressure test');
  const bare = { ...job.pressureTest, line: null, corrected: null, followingRatio: null, drop: null };
  const [hold] = await keysOf({ pressureTest: bare });
  expect(hold).toContain('as read');
  expect(hold).toContain('the temperature of the pipe was not logged from end to end');
  const [gap] = await keysOf({ pressureTest: { ...bare, line: job.pressureTest.line } });
  expect(gap).toContain('what a tight system would show cannot be told');
  const page = await readJobPage({ ...job, pressureTest: bare });
  expect(page).toContain('How did the pressure move in the hold?');
  expect(page).not.toContain('once temperature is taken out');
  // Never held: no second chart.
  const neverHeld = { ...bare, judged: null, holds: [] };
  const flat = await readJobPage({ ...job, pressureTest: neverHeld });
  expect(flat).toContain('How did the pressure test go?');
  expect(flat).not.toContain('in the hold?');
  expect(flat).not.toContain('Holds as a table');
});

test('the holds are in a table, too', async () => {
  const page = await readJobPage(job);
  const [, table = ''] = /Holds as a table<\/summary>([^]*?)<\/table>/.exec(page) ?? [];
  const rows = [...table.matchAll(/<tr>(.*?)<\/tr>/g)].map(([, row = '']) =>
    [...row.matchAll(/<t[hd][^>]*>(.*?)<\/t[hd]>/g)].map(([, cell]) => cell),
  );
  expect(rows[1]).toEqual(['1', '1.0', '6.0', '150.0 psig', '150.0 psig']);
  expect(rows[2]?.slice(0, 3)).toEqual(['2, judged', '6.5', '66.5']);
});

test('keys of the charts tell the figures, and what a chart leaves out', async () => {
  if (!job.fitted) throw new Error('the sample has no fitted isolation');
  const vacuumKeysOf = (other: Partial<JobEvidence>) =>
    keysOf({ pressureTest: null, scale: null, run: null, ...other });
  const [vacuum, rise] = await vacuumKeysOf({});
  expect(vacuum).toContain('above the gauge’s range');
  expect(vacuum).toContain('stood for 5 min at 6\u00a0751 µm');
  expect(vacuum).toContain('the valve was shut somewhere in these 50 s');
  expect(rise).toContain('steady, as a leak: 4.50 µm/min (0 to 22.5 µm/min, 95 %)');
  expect(rise).toContain('slackens towards 1\u00a0928 µm (1\u00a0905 µm to 1\u00a0965 µm)');
  const far = { ...job.fitted, leakPaPerS: 0, plateau: { pa: 9000, lowPa: 4000, highPa: null } };
  const limits = [{ label: 'limit after 10 min', pa: 6000, of: 'rise' } as const];
  const [, above] = await vacuumKeysOf({ fitted: far, limits });
  expect(above).toContain('steady, as a leak: none needed, 22.5 µm/min at most (95 %)');
  expect(above).toMatch(/slackens towards 67.506 µm \(30.002 µm or more\), above this chart/);
  expect(above).toMatch(/limit after 10 min: 45.004 µm, above this chart/);
  const [, unfitted] = await vacuumKeysOf({ fitted: null });
  expect(unfitted).toContain('nothing was fitted to this isolation');
  expect(await vacuumKeysOf({ isolation: null })).toHaveLength(1);
});
