import { expect, test } from 'vitest';
import { renderServiceManagerPage } from '../../src/pages/service-manager-page.ts';
import { serviceManagerSample } from './service-manager-sample.ts';

test('tells of each job what happened, once, and folds away what passed or could not be judged', async () => {
  const { lookAt } = serviceManagerSample();
  const [job] = lookAt;
  const page = await renderServiceManagerPage({ ...serviceManagerSample(), lookAt: job === undefined ? [] : [job] });
  for (const paragraph of job?.story ?? []) expect(page.split(paragraph)).toHaveLength(2);
  const [, folded = ''] =
    /Other checks on this job: 1 pass, 2 not evaluated, 1 missing([^]*?)<\/details>/.exec(page) ?? [];
  // One reason, two questions.
  expect(page.split('No steady run was recorded.')).toHaveLength(2);
  expect(folded).toContain('Is the subcooling near its target? Is the superheat near its target?');
  expect(folded).toContain('Was the vacuum held as long as asked for?');
  expect(folded.match(/class="tag pass"/g)).toHaveLength(1);
});

test('keys of the charts tell the figures, and what a chart leaves out', async () => {
  const sample = serviceManagerSample();
  const [job] = sample.lookAt;
  if (!job?.fitted) throw new Error('the sample has no fitted isolation');
  const keysOf = async (other: Partial<typeof job>) => {
    const page = await renderServiceManagerPage({ ...sample, lookAt: [{ ...job, ...other }] });
    return [...page.matchAll(/<ul class="key">(.*?)<\/ul>/g)].map(([, key = '']) => key.replace(/<[^>]+>/g, '|'));
  };
  const [vacuum, rise] = await keysOf({});
  expect(vacuum).toContain('above the gauge’s range');
  expect(vacuum).toContain('stood for 5 min at 6\u00a0751 µm');
  expect(vacuum).toContain('the valve was shut somewhere in these 50 s');
  expect(rise).toContain('steady, as a leak: 4.50 µm/min (0 to 22.5 µm/min, 95 %)');
  expect(rise).toContain('slackens towards 1\u00a0928 µm (1\u00a0905 µm to 1\u00a0965 µm)');
  const far = { ...job.fitted, leakPaPerS: 0, plateau: { pa: 9000, lowPa: 4000, highPa: null } };
  const limits = [{ label: 'limit after 10 min', pa: 6000, of: 'rise' } as const];
  const [, above] = await keysOf({ fitted: far, limits });
  expect(above).toContain('steady, as a leak: none needed, 22.5 µm/min at most (95 %)');
  expect(above).toMatch(/slackens towards 67.506 µm \(30.002 µm or more\), above this chart/);
  expect(above).toMatch(/limit after 10 min: 45.004 µm, above this chart/);
  const [, unfitted] = await keysOf({ fitted: null });
  expect(unfitted).toContain('nothing was fitted to this isolation');
  expect(await keysOf({ isolation: null })).toHaveLength(1);
});

test('the list says of a finding no more than its first sentences', async () => {
  const sample = serviceManagerSample();
  const [job] = sample.lookAt;
  const [finding] = job?.findings ?? [];
  if (!job || !finding) throw new Error('the sample has no finding');
  const long = `It leaks by 3.5 oz. It may sit in flares. ${'And so on and on it goes for ever. '.repeat(5)}`.trim();
  const page = await renderServiceManagerPage({
    ...sample,
    lookAt: [{ ...job, findings: [{ ...finding, outcome: 'fail', text: long }] }],
  });
  const [, entry = ''] = /class="plain todo">([^]*?)<\/ol>/.exec(page) ?? [];
  expect(entry).toContain('<p>It leaks by 3.5 oz. It may sit in flares. And so on');
  expect(entry).not.toContain(long);
  expect(page).toContain(long);
});
