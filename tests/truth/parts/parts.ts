import { accounts } from './accounts.ts';
import { callbacks } from './callbacks.ts';
import { charge } from './charge.ts';
import { copies } from './copies.ts';
import { fleet } from './fleet.ts';
import { pressure } from './pressure.ts';
import type { Part } from './part.ts';
import { recording } from './recording.ts';
import { run } from './run.ts';
import { vacuum } from './vacuum.ts';
import { wholeFleet } from './whole-fleet.ts';

/** All parts, in the order in which they are told. */
export const parts: readonly Part[] = [
  vacuum,
  pressure,
  charge,
  run,
  recording,
  copies,
  fleet,
  callbacks,
  accounts,
  wholeFleet,
];
