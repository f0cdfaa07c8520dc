import type { Policy } from '../../checks/policy.ts';
import { jobFacts } from '../../facts/job-facts.ts';
import type { JobRecords, MeasuredMaterial } from '../../facts/job-material.ts';
import { measuredFacts } from '../../facts/measured-facts.ts';
import { jobCurves } from '../../facts/recording/job-curves.ts';
import type { Facts } from '../../records/tables/facts.ts';
import { ColumnBuffers } from '../../store/column-buffers.ts';
import type { JobCurvePrint } from '../../store/curve-prints.ts';
import { JudgedPart } from '../../store/judged-part.ts';
import { readSlice } from '../../store/read-slice.ts';
import { SegmentReader } from '../../store/segment-reader.ts';
import { curvePrint } from '../../traces/curve/curve-print.ts';
import { JobFindings } from './job-findings.ts';
import type { PartTask } from './part-messages.ts';

/** Measures and judges jobs and writes what is found as a part, one after the other: all are read into the same memory. */
export class PartMaker {
  readonly #buffers = new ColumnBuffers();
  readonly #findings: JobFindings;
  #engine: Promise<PartEngine> | undefined;
  #last: Promise<unknown> = Promise.resolve();
  #ended = false;

  constructor(policy: Policy) {
    this.#findings = new JobFindings(policy);
  }

  /** Fulfilled when the part is written. */
  make(task: PartTask): Promise<void> {
    const made = this.#last.then(() => this.#made(task));
    this.#last = made.catch(() => undefined);
    return made;
  }

  /** Lets go of the engine once the part under way is done; those that wait are refused. */
  async end(): Promise<void> {
    this.#ended = true;
    await this.#last;
    // One that never began has nothing to let go of.
    (await this.#engine?.catch(() => undefined))?.close();
  }

  async #made({ folder, slices, unread, standing }: PartTask): Promise<void> {
    if (this.#ended) throw new Error('ended before this part was made');
    this.#engine ??= begunEngine();
    const { reader, part } = await this.#engine;
    try {
      for (const { slice, records } of slices) {
        const all: MeasuredMaterial[] = [];
        for await (const { jobId: _, ...readings } of readSlice(reader, slice, this.#buffers))
          all.push({ ...records[all.length], ...readings });
        this.#judge(part, all, records);
      }
      for (const record of unread) {
        const facts = jobFacts(record, {});
        part.add({ facts, findings: this.#findings.of(facts, record.job), prints: [] });
      }
      for (const { facts, job } of standing) part.add({ findings: this.#findings.of(facts, job), prints: [] });
      await part.write(folder);
    } catch (error) {
      await part.clear();
      throw error;
    }
  }

  /** One step after the other for all jobs, not job by job: each finds its code in the processor's caches, and takes a seventh less. */
  #judge(part: JudgedPart, all: readonly MeasuredMaterial[], records: readonly JobRecords[]): void {
    const printed = all.map(printsOf);
    const facts = all
      .map(measuredFacts)
      .map((measured, at) => jobFacts(records[at], { ...measured, ...curveCounts(printed[at]) }));
    const findings = facts.map((found, at) => this.#findings.of(found, records[at].job));
    for (const [at, found] of facts.entries())
      part.add({ facts: found, findings: findings[at], prints: printed[at].prints });
  }
}

interface PartEngine {
  readonly reader: SegmentReader;
  readonly part: JudgedPart;
  readonly close: () => void;
}

async function begunEngine(): Promise<PartEngine> {
  const reader = await SegmentReader.begin();
  const connection = await reader.connect();
  const close = () => {
    connection.closeSync();
    reader.close();
  };
  return { reader, part: await JudgedPart.begin(connection), close };
}

interface PrintedCurves {
  readonly curves: number;
  readonly prints: readonly JobCurvePrint[];
}

function printsOf(material: MeasuredMaterial): PrintedCurves {
  const curves = jobCurves(material);
  const prints = curves.flatMap(({ column, gauge, elapsedS, pa }) => {
    const print = curvePrint(elapsedS, pa);
    return print === undefined ? [] : { column, gauge, print };
  });
  return { curves: curves.length, prints };
}

/** How many curves a job has, and of how many it can be told whether they stand elsewhere. */
function curveCounts({ curves, prints }: PrintedCurves): Partial<Facts> {
  if (curves === 0) return {};
  return { pressure_curves: curves, compared_curves: prints.filter(({ print }) => print.hasFace).length };
}
