import { expect, test } from 'vitest';
import { serviceManagerPage } from '../../src/pages/service-manager-page.ts';
import { pageShell } from '../../src/pages/page-shell.ts';
import { serviceManagerSample } from './service-manager-sample.ts';

const reader = { units: 'ip', dates: 'day-first' } as const;
const sample = serviceManagerSample();

test('technicians stand beside the share of all jobs, whoever is shown', async () => {
  const [flagged, judged] = (['flagged', 'judged'] as const).map((key) =>
    sample.cells.rows.reduce((sum, row) => sum + row[key], 0),
  );
  const all = `clear of the share over all (${Math.round((100 * flagged) / judged)}%); `;
  expect(await pageShell(serviceManagerPage(() => sample, reader))).toContain(`${all}if all worked alike`);
  const [worst] = sample.technicians.toSorted((a, b) => b.flagged / b.judged - a.flagged / a.judged);
  const some = await pageShell(serviceManagerPage(() => ({ ...sample, technicians: [worst] }), reader));
  expect(some).toContain(`${all}who is shown was chosen for it`);
  expect(some).not.toContain('if all worked alike');
});
