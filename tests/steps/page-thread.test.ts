import { expect, test } from 'vitest';
import type { PageTask } from '../../src/steps/report/page-task.ts';
import { PageThread } from '../../src/steps/report/page-thread.ts';

test('a page that cannot be rendered is refused, with all that wait and all that are asked for later', async () => {
  const thread = new PageThread({
    reader: { units: 'ip', dates: 'day-first' },
    form: { format: 'html', specs: false },
  });
  const broken = { kind: 'job', job: { ip: null, si: null } } as unknown as PageTask;
  const first = thread.render(Array.from({ length: 12 }, () => broken));
  await expect(first[0]?.()).rejects.toThrow('null');
  await expect(first[11]?.()).rejects.toThrow('null');
  const [later] = thread.render([broken]);
  await expect(later?.()).rejects.toThrow('null');
  await thread.close();
});
