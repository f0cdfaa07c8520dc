import type { Evidence } from '../checks/check.ts';
import { checkNamed, checks } from '../checks/checks.ts';
import { messageText } from '../checks/message-text.ts';
import type { PhaseSpan } from '../charts/vacuum-recording.ts';
import type { VacuumMaterial } from '../facts/job-material.ts';
import { judgedSeries, usualTargetPa } from '../facts/vacuum-facts.ts';
import { siteAtmosphere } from '../facts/site-atmosphere.ts';
import { chargeStory } from '../pages/charge-story.ts';
import { evacuationStory } from '../pages/evacuation-story.ts';
import { pressureTestStory } from '../pages/pressure-test-story.ts';
import { contradictionText, togetherStory } from '../pages/together-story.ts';
import { sharpS } from '../pages/rise-story.ts';
import { runStory } from '../pages/run-story.ts';
import type { JobEvidence, JobFinding } from '../pages/job-evidence-data.ts';
import type { StoryMaterial } from '../pages/story-material.ts';
import type { UnseenMaterial } from '../pages/unseen/unseen-words.ts';
import { unseenText } from '../pages/unseen-text.ts';
import { type Facts, facts as factsTable } from '../records/tables/facts.ts';
import { type Finding, findings as findingsTable } from '../records/tables/findings.ts';
import type { Job } from '../records/tables/jobs.ts';
import { type ReferenceKey, references } from '../references.ts';
import { streamJobReadings } from '../store/job-stream.ts';
import { recordsBy } from '../store/record-lookup.ts';
import type { Store } from '../store/store.ts';
import { findVacuumPhases, type VacuumPhase } from '../traces/vacuum-phases.ts';
import type { PressureSeries } from '../traces/pressure-series.ts';
import type { VacuumSeries } from '../traces/vacuum-series.ts';
import type { UnitSystem } from '../units/display.ts';
import type { InUnits } from '../units/in-units.ts';
import { chargeEvidence } from './charge-evidence.ts';
import { evidenceLimits, storyLimits } from './evidence-limits.ts';
import { evidenceTrace } from './evidence-trace.ts';
import { foundIsolation } from '../facts/rise/found-isolation.ts';
import { fittedRise } from './fitted-rise.ts';
import type { PeopleNames } from './people-names.ts';
import { pressureEvidence } from './pressure-evidence.ts';
import { RecordLookup } from './record-lookup.ts';
import { runEvidence } from './run-evidence.ts';
import { sharedCurves } from './shared-curves.ts';

export interface JobEvidenceOptions {
  readonly policyId: string;
  readonly names: PeopleNames;
}

type Recording = Pick<JobEvidence, 'trace' | 'phases' | 'isolation' | 'fitted' | 'stall' | 'valveOff'>;
const noRecording: Recording = {
  trace: null,
  phases: [],
  isolation: null,
  fitted: null,
  stall: null,
  valveOff: null,
};

/**
 * What was found on some jobs and the recordings that show it.
 *
 * @param wanted a temporary table with a column `job_id`; the order of its rows is the order of the result
 */
export async function jobEvidence(
  store: Store,
  wanted: string,
  options: JobEvidenceOptions,
): Promise<InUnits<JobEvidence>[]> {
  const order = await store.rows<{ job_id: string }>(`SELECT job_id FROM temp.${wanted}`);
  const of = `temp.${wanted}`;
  const lookup = await RecordLookup.begin(store);
  const records = new Map((await lookup.of(order.map((row) => row.job_id))).map((known) => [known.jobId, known]));
  const facts = await recordsBy<Facts>(store, factsTable, 'job_id', of);
  const findings = await recordsBy<Finding>(store, findingsTable, 'job_id', of);
  const policyFindings = (jobId: string) =>
    (findings.get(jobId) ?? []).filter((finding) => finding.policy_id === options.policyId);
  const recordings = new Map<string, Recording>();
  const pressureTests = new Map<string, JobEvidence['pressureTest']>();
  const charges = new Map<string, JobEvidence['scale']>();
  const runs = new Map<string, JobEvidence['run']>();
  for await (const { jobId, pressure, scale, run, ...vacuum } of streamJobReadings(store, wanted)) {
    const { job, gauge } = records.get(jobId) ?? {};
    const measured: Partial<Facts> = facts.get(jobId)?.[0] ?? {};
    recordings.set(jobId, vacuumRecording({ job, gauge, pressure, ...vacuum }, measured));
    if (pressure !== undefined)
      pressureTests.set(
        jobId,
        pressureEvidence(pressure, measured, evidenceByCheck(policyFindings(jobId)), siteAtmosphere(job)),
      );
    if (scale !== undefined) charges.set(jobId, chargeEvidence(scale, measured, job?.scale_step_kg));
    const record = { refrigerant: job?.refrigerant, atmospherePa: siteAtmosphere(job) };
    if (run !== undefined) runs.set(jobId, runEvidence(run, measured, record));
  }
  const shared = await sharedCurves(store, new Map([...facts].flatMap(([jobId, [of]]) => (of ? [[jobId, of]] : []))));
  return order.map(({ job_id: jobId }): InUnits<JobEvidence> => {
    const job = records.get(jobId)?.job;
    const measured = facts.get(jobId)?.[0];
    const found = policyFindings(jobId);
    const told = {
      jobId,
      startedAt: job?.started_at ?? '',
      technician: options.names.technician(job?.technician_id),
      crewId: job?.crew_id === undefined ? null : options.names.crew(job.crew_id),
      systemId: job?.system_id ?? null,
      siteId: job?.site_id ?? null,
      refrigerant: job?.refrigerant ?? null,
      workType: job?.work_type ?? null,
      pressureTest: pressureTests.get(jobId) ?? null,
      ...(recordings.get(jobId) ?? noRecording),
      scale: charges.get(jobId) ?? null,
      run: runs.get(jobId) ?? null,
      shared: shared.get(jobId) ?? null,
      limits: evidenceLimits(evidenceByCheck(found)),
    };
    const inOrder = checks.flatMap((check) => found.filter((finding) => finding.check_id === check.id));
    return (units) => ({
      ...told,
      contradiction: contradictionText(measured ?? {}),
      story: measured === undefined ? [] : jobStory(job, measured, found, units),
      findings: inOrder.map((finding) => jobFinding(finding, units, { facts: measured ?? {}, job })),
    });
  });
}

/** What the vacuum's recording is shown from; a log made for the pressure test as well has that too. */
type VacuumReadings = VacuumMaterial & { readonly pressure: PressureSeries | undefined };

/** The first reading that is shown: what a vacuum gauge reads above its range while the pressure test stands is no vacuum. */
function firstShown({ elapsedS, vacuumPa }: VacuumSeries, pressure: PressureSeries | undefined): number {
  const testEndS = pressure?.elapsedS.at(-1) ?? Number.NEGATIVE_INFINITY;
  const first = vacuumPa.findIndex((pa, at) => pa !== Number.POSITIVE_INFINITY || elapsedS[at] > testEndS);
  return Math.max(0, first);
}

/** The vacuum of a job, its times counted from its own first reading: a pressure test may have stood a day before it. */
function vacuumRecording(material: VacuumReadings, facts: Partial<Facts>): Recording {
  const judged = judgedSeries(material);
  if (judged === undefined) return noRecording;
  const { phases } = findVacuumPhases(judged, material.job?.vacuum_target_pa ?? usualTargetPa, material.marks);
  const isolation = facts.isolation_start_s === undefined ? undefined : foundIsolation(judged, phases)?.phase;
  const from = firstShown(judged, material.pressure);
  const fromS = judged.elapsedS[from];
  const trace = evidenceTrace(
    { ...judged, elapsedS: judged.elapsedS.subarray(from), vacuumPa: judged.vacuumPa.subarray(from) },
    isolation && { ...isolation, fromIndex: isolation.fromIndex - from, toIndex: isolation.toIndex - from },
  );
  const spanOf = ({ phase, startS, endS }: VacuumPhase): PhaseSpan => ({
    phase,
    startS: Math.max(0, startS - fromS),
    endS: endS - fromS,
  });
  return {
    trace: { ...trace, elapsedS: trace.elapsedS.map((atS) => atS - fromS) },
    phases: phases.map(spanOf),
    isolation: isolation === undefined ? null : spanOf(isolation),
    fitted: isolation === undefined ? null : fittedRise({ series: judged, phases, facts, material }),
    stall: stallOf(facts, fromS),
    valveOff: valveOffOf(facts, fromS),
  };
}

/** What happened on a job, in the order of the work. */
function jobStory(job: Job | undefined, facts: Partial<Facts>, found: readonly Finding[], units: UnitSystem): string[] {
  const evidence = evidenceByCheck(found);
  const isFlagged = (checkId: string) =>
    found.some(({ check_id, outcome }) => check_id === checkId && (outcome === 'suspect' || outcome === 'fail'));
  const material: StoryMaterial = {
    facts,
    job,
    limits: storyLimits(evidence, job?.vacuum_target_pa ?? usualTargetPa),
    blindIsSaid: isFlagged('rise-test-blind'),
    pressureBlindIsSaid: isFlagged('pressure-test-blind'),
    chargeIsOff: isFlagged('charge-off-target'),
    units,
  };
  return [
    ...pressureTestStory(material),
    ...evacuationStory(material),
    ...togetherStory(material),
    ...chargeStory(material),
    ...runStory(material),
  ];
}

function stallOf({ stall_start_s, stall_s, stall_pa }: Partial<Facts>, fromS: number): JobEvidence['stall'] {
  if (stall_start_s === undefined || stall_s === undefined || stall_pa === undefined) return null;
  return { startS: stall_start_s - fromS, endS: stall_start_s - fromS + stall_s, pa: stall_pa };
}

function valveOffOf({ isolation_start_low_s: lowS, isolation_start_high_s: highS }: Partial<Facts>, fromS: number) {
  if (lowS === undefined || highS === undefined || highS - lowS <= sharpS) return null;
  return { lowS: lowS - fromS, highS: highS - fromS };
}

function jobFinding(finding: Finding, units: UnitSystem, known: Omit<UnseenMaterial, 'units'>): JobFinding {
  const check = checkNamed(finding.check_id);
  return {
    checkId: finding.check_id,
    question: check?.question ?? finding.check_id,
    outcome: finding.outcome,
    text: check === undefined ? finding.message_id : messageText(check, finding.message_id, evidenceOf(finding), units),
    basis: limitBasis(evidenceOf(finding)),
    teach: check?.teach ?? '',
    unseen: unseenText(finding, { ...known, units }),
  };
}

/** Where the limits of a finding come from, in a sentence; empty where it was held against none. */
function limitBasis(evidence: Evidence): string {
  const sources = Object.entries(evidence).flatMap(([name, value]) => (name.endsWith('_source') ? [value] : []));
  const named = [...new Set(sources)].map((source) =>
    source === 'record' ? "the job's own record" : (references[source as ReferenceKey]?.citation ?? String(source)),
  );
  return named.length === 0 ? '' : `Limit: ${named.join('; ')}.`;
}

function evidenceByCheck(found: readonly Finding[]): ReadonlyMap<string, Evidence> {
  return new Map(found.map((finding) => [finding.check_id, evidenceOf(finding)]));
}

/** The evidence of a finding; empty where there is none. */
function evidenceOf({ evidence }: Finding): Evidence {
  return evidence === undefined ? {} : (JSON.parse(evidence) as Evidence);
}
