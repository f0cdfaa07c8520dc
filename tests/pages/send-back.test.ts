import { expect, test } from 'vitest';
import { checks } from '../../src/checks/checks.ts';
import { revisitText } from '../../src/pages/revisit-text.ts';
import { type SendBack, sendBackList } from '../../src/pages/send-back.ts';

type Evidence = Parameters<typeof sendBackList>[0][number];
type Watched = Parameters<typeof sendBackList>[1][number];

/** A job of which these checks failed or are suspect, and nothing else is known. */
function job(jobId: string, fails: readonly string[], suspects: readonly string[] = []): Evidence {
  const finding = (checkId: string, outcome: 'fail' | 'suspect') => ({
    checkId,
    outcome,
    text: `${checkId} of ${jobId}.`,
    question: '',
    basis: '',
    teach: '',
    unseen: '',
  });
  return {
    jobId,
    startedAt: '2026-03-16T08:00:00-06:00',
    technician: 'Ash',
    findings: [
      ...fails.map((id) => finding(id, 'fail')),
      ...suspects.map((id) => finding(id, 'suspect')),
      { ...finding('hold-short', 'fail'), outcome: 'pass' as const },
    ],
  } as unknown as Evidence;
}

function watched(evidence: Evidence, times: number): Watched {
  return {
    job: { jobId: evidence.jobId, times, risk: { risk: 0.2, low: 0.1, high: 0.3 }, onSite: [revisitText('running')] },
    evidence,
  } as unknown as Watched;
}

/** The sentences of the findings that are told of a job. */
const told = (entry: SendBack | undefined) => [...JSON.stringify(entry?.why).matchAll(/[a-z-]+ of \w+\./g)].map(String);
const ids = (list: readonly SendBack[]) => list.map((entry) => entry.job.jobId);

test('what a test found wrong with a system comes first, a leak before water, then the likeliest to call back, then work that failed', () => {
  const recent = [
    job('short', ['pressure-test-short']),
    job('wet', ['wet']),
    job('charge', ['charge-off-target']),
    job('leaking', ['leaking']),
    job('dropped', ['pressure-not-held']),
  ];
  const list = sendBackList(recent, [watched(job('likely', []), 3), watched(job('less likely', []), 2.5)]);
  expect(ids(list)).toEqual(['dropped', 'leaking', 'wet', 'charge', 'likely', 'less likely', 'short']);
  expect(list.map(({ outcome }) => outcome)).toEqual(['fail', 'fail', 'fail', 'fail', 'watch', 'watch', 'fail']);
});

test('of equal findings the order of the week stays', () => {
  expect(ids(sendBackList([job('b', ['wet']), job('a', ['wet'])], []))).toEqual(['b', 'a']);
});

test('a finding on the recording alone sends nobody back, nor does a suspicion', () => {
  const ofRecord = checks.filter(({ revisit }) => revisit === 'record').map(({ id }) => id);
  expect(ofRecord.length).toBeGreaterThan(3);
  expect(sendBackList([job('record', ofRecord), job('suspect', [], ['leaking', 'wet'])], [])).toEqual([]);
  // Beside a failed test it is not among the reasons.
  const [entry] = sendBackList([job('both', [...ofRecord, 'wet'])], []);
  expect(told(entry)).toEqual(['wet of both.']);
});

test('the watch list sends back only from twice the usual risk on, and nobody twice', () => {
  const both = job('both', ['leaking']);
  const list = sendBackList([both], [watched(both, 4), watched(job('twice', []), 2), watched(job('less', []), 1.99)]);
  expect(ids(list)).toEqual(['both', 'twice']);
  expect(list[0]).toMatchObject({ outcome: 'fail', times: 4, risk: { risk: 0.2 } });
  expect(sendBackList([job('a', ['wet'])], [])[0]).toMatchObject({ times: null, risk: null });
});

test('two reasons at most, the heaviest first, and what is done on site for them, once each', () => {
  const [entry] = sendBackList([job('j', ['hold-short', 'wet', 'leaking'], ['pressure-not-held'])], []);
  expect(told(entry)).toEqual(['leaking of j.', 'wet of j.']);
  expect(entry?.moreFindings).toBe(2);
  expect(entry?.visits).toEqual([revisitText('leak'), revisitText('moisture')]);
  const [moist] = sendBackList([job('m', ['wet', 'water-in-system'])], []);
  expect(moist?.visits).toEqual([revisitText('moisture')]);
  // What is not told is looked at all the same, so that nobody drives twice.
  const [third] = sendBackList([job('t', ['leaking', 'wet'], ['charge-off-target'])], []);
  expect(told(third)).toEqual(['leaking of t.', 'wet of t.']);
  expect(third?.visits).toEqual([revisitText('leak'), revisitText('moisture'), revisitText('charge')]);
  // Without a finding of its own, what the watch list would look at.
  const [likely] = sendBackList([], [watched(job('w', []), 3)]);
  expect(likely).toMatchObject({ why: [], visits: [revisitText('running')] });
});
