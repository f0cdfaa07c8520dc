import type { Claim } from '../claim.ts';
import type { FurtherTable } from '../parts/part.ts';
import { applianceClaims } from './appliance-claims.ts';
import { callbackClaims } from './callback-claims.ts';
import { fleetChargeClaims } from './charge-claims.ts';
import { copyClaims } from './copy-claims.ts';
import { cylinderClaims } from './cylinder-claims.ts';
import { evacuationClaims } from './evacuation-claims.ts';
import { findingClaims } from './finding-claims.ts';
import type { JudgedFleet } from './judged-fleet.ts';
import { peopleClaims } from './people-claims.ts';
import { pressureClaims } from './pressure-claims.ts';
import { fleetRecordingClaims } from './recording-claims.ts';
import { runClaims } from './run-claims.ts';

/** All that is claimed of a fleet. What a log shows is asked of logs that are their job's own and as they were recorded. */
export async function fleetClaims(fleet: JudgedFleet): Promise<{ claims: Claim[]; tables: FurtherTable[] }> {
  const { jobs, ownJobs } = fleet;
  const [evacuations, runs, findings] = [evacuationClaims(ownJobs), runClaims(ownJobs), findingClaims(jobs, ownJobs)];
  return {
    claims: [
      ...evacuations.claims,
      ...pressureClaims(ownJobs),
      ...fleetChargeClaims(ownJobs),
      ...runs.claims,
      ...fleetRecordingClaims(jobs, ownJobs),
      ...(await copyClaims(fleet)),
      ...findings.claims,
      ...(await peopleClaims(fleet)),
      ...(await callbackClaims(fleet)),
      ...(await cylinderClaims(fleet)),
      ...(await applianceClaims(fleet)),
    ],
    tables: [...evacuations.tables, ...runs.tables, ...findings.tables],
  };
}
