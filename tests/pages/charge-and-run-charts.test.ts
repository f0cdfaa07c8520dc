import { describe, expect, test } from 'vitest';
import type { JobEvidence } from '../../src/pages/job-evidence-data.ts';
import type { UnitSystem } from '../../src/units/display.ts';
import { runSample } from './run-sample.ts';
import { sampleJobs } from './job-sample.ts';
import { readJobPage } from './read-job-page.ts';
import { weighInSample } from './weigh-in-sample.ts';

const [job] = sampleJobs();
const bare = { pressureTest: null, trace: null, phases: [], isolation: null, fitted: null, scale: null, run: null };
const [scale, run] = [weighInSample(), runSample()];

/** The page of a job with nothing but what is given. */
function pageOf(other: Partial<JobEvidence>, units: UnitSystem = 'ip'): Promise<string> {
  return readJobPage({ ...job, ...bare, ...other }, units);
}

/** The key of the only chart of it. */
async function keyOf(other: Partial<JobEvidence>, units: UnitSystem = 'ip'): Promise<string> {
  const [, key = ''] = /<ul class="key">(.*?)<\/ul>/.exec(await pageOf(other, units)) ?? [];
  return key.replace(/<[^>]+>/g, '|');
}

/** Cells of the table with that title. */
function rowsOf(page: string, title: string): string[][] {
  const [, table = ''] = new RegExp(`${title}</summary>([^]*?)</table>`).exec(page) ?? [];
  return [...table.matchAll(/<tr>(.*?)<\/tr>/g)].map(([, row = '']) =>
    [...row.matchAll(/<t[hd][^>]*>(.*?)<\/t[hd]>/g)].map(([, cell = '']) => cell),
  );
}

describe('the weigh-in', () => {
  test('has a key that tells the mass, what was taken out, and what was judged', async () => {
    const key = await keyOf({ scale });
    expect(key).toContain('left the cylinder: 10.6 oz (10.2 to 10.9 oz, 95 %)');
    expect(key).toContain('flow: 2 min');
    expect(key).toContain('scale moved, taken out: twice, by up to 21 lb 9.7 oz');
    expect(key).toContain('as read, as far as it fits');
    expect(key).toContain('so sudden that a hand or a hose may have done it: once, by 2.1 oz, counted as flow here');
    expect(key).toContain('the charge was judged by 8.5 oz: the rest is not in what was written down');
    expect(await keyOf({ scale }, 'si')).toContain('left the cylinder: 300 g (290 to 310 g, 95 %)');
    const written = { ...scale, counted: { kg: 0.24, isScale: false } };
    expect(await keyOf({ scale: written })).toContain('judged by 8.5 oz: as it was written down');
    const plain = await keyOf({ scale: { ...scale, moves: [], counted: null } });
    expect(plain).not.toMatch(/as read|taken out|sudden|judged/);
  });

  test('says so where no flow can be told', async () => {
    const unknown = { ...scale, flow: null, counted: null, moves: [] };
    expect(await keyOf({ scale: unknown })).toContain('how much flowed cannot be told from these readings');
    expect(await pageOf({ scale: unknown })).not.toContain('Weigh-in as a table');
    const two = { elapsedS: [0, 2], drawnKg: [0, 0] };
    const brief = await pageOf({ scale: { ...unknown, read: two, corrected: two } });
    expect(brief).not.toContain('How much left the cylinder?');
  });

  test('is in a table in the order of time, its moves among it', async () => {
    expect(rowsOf(await pageOf({ scale }, 'si'), 'Weigh-in as a table')).toEqual([
      ['what', 'minutes', 'mass'],
      ['at rest before', '0.0 to 1.0', '9.800 kg'],
      ['moved and stayed', '0.6 to 0.7', 'by −9.800 kg'],
      ['left the cylinder', '1.0 to 3.0', '300 g'],
      ['moved and came back', '1.7 to 1.8', 'by 400 g'],
      ['fell at once, counted as flow', '3.0', '60 g'],
      ['at rest after', '3.0 to 4.0', '9.500 kg'],
    ]);
    expect(await pageOf({ scale })).toContain('Readings after a move that stayed are given as if it had not been.');
  });
});

describe('the run test', () => {
  test('has a key that tells superheat and subcooling with intervals and targets', async () => {
    const key = await keyOf({ run });
    expect(key).toContain('superheat: 10.8 °F (9.0 to 12.6 °F, 95 %)|');
    expect(key).toContain('subcooling: 9.0 °F (6.8 to 11.2 °F, 95 %); target 9.9 °F');
    expect(key).toContain('steady, judged: 10 min');
    expect(key).toContain('the run began');
    expect(await keyOf({ run }, 'si')).toContain('superheat: 6.0 K (5.0 to 7.0 K, 95 %)');
  });

  test('says what is left out, and where nothing was steady', async () => {
    const none = run.trace.elapsedS.map(() => null);
    const trace = { ...run.trace, bubbleK: none, liquidLineK: none };
    const twoPhase = await keyOf({ run: { ...run, trace, subcooling: null, isTwoPhase: true } });
    expect(twoPhase).toContain('metering device outdoors: the liquid line carries vapour too, and is left out');
    expect(twoPhase).not.toMatch(/bubble point|subcooling/);
    const unsteady = { ...run, startS: null, steady: null, superheat: null, subcooling: null, means: null };
    expect(await keyOf({ run: unsteady })).toContain('no steady stretch to judge by');
    expect(await keyOf({ run: unsteady })).not.toMatch(/the run began|superheat/);
    expect(await pageOf({ run: unsteady })).not.toContain('Steady run as a table');
    const nothing = { ...trace, dewK: none, suctionLineK: none };
    expect(await pageOf({ run: { ...run, trace: nothing } })).not.toContain('How far were the lines');
  });

  test('has its means in a table, without what was not read', async () => {
    const rows = rowsOf(await pageOf({ run }, 'si'), 'Steady run as a table');
    expect(rows).toContainEqual(['steady stretch', 'mean', '95 %', 'target']);
    expect(rows).toContainEqual(['suction pressure', '8.19 bar gauge', '', '']);
    expect(rows).toContainEqual(['dew point', '5.9 °C', '', '']);
    expect(rows).toContainEqual(['superheat', '6.0 K', '5.0 to 7.0\u00a0K', '']);
    expect(rows).toContainEqual(['subcooling', '5.0 K', '3.8 to 6.2\u00a0K', '5.5 K']);
    expect(rows).toContainEqual(['compressor', '1.84 kW', '', '']);
    expect(rows.flat()).not.toContain('returning air, wet bulb');
    const twoPhase = rowsOf(await pageOf({ run: { ...run, isTwoPhase: true } }), 'Steady run as a table');
    expect(twoPhase.flat()).not.toContain('liquid line');
    expect(twoPhase[0]).toEqual(['steady stretch', 'mean', '95 %']);
  });

  test('is on the saturation curve, too, with its figures for who does not see it', async () => {
    const described = (page: string) => /aria-label="([^"]*saturation curve[^"]*)"/.exec(page)?.[1] ?? '';
    const ip = described(await pageOf({ run }));
    expect(ip).toContain('suction line: 53.3 °F at 118.7 psig, superheat 10.8 °F');
    expect(ip).toContain('liquid line: 98.3 °F at 347.9 psig, subcooling 9.0 °F; target subcooling: 9.9 °F');
    expect(ip).not.toContain('target superheat');
    const si = described(await pageOf({ run }, 'si'));
    expect(si).toContain('suction line: 11.9 °C at 9.20 bar, superheat 6.0 K');
    expect(await pageOf({ run }, 'si')).toContain('bar, absolute, over °C');
    const twoPhase = described(await pageOf({ run: { ...run, isTwoPhase: true } }));
    expect(twoPhase).toContain('the liquid line tells no subcooling, and is left out');
    expect(twoPhase).not.toContain('liquid line: ');
  });

  test('is on no curve where the refrigerant is not known, or nothing was steady', async () => {
    const question = 'How far from saturation was it, on the curve?';
    expect(await pageOf({ run })).toContain(question);
    expect(await pageOf({ run: { ...run, curve: null } })).not.toContain(question);
    expect(await pageOf({ run: { ...run, superheat: null, subcooling: null, means: null } })).not.toContain(question);
  });
});
