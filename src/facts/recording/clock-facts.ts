import type { Facts } from '../../records/tables/facts.ts';
import { backwardJump } from './clock-back.ts';
import { forwardJump } from './clock-forward.ts';
import type { ScannedSeries } from './scanned-series.ts';

/** Whether the clock of the log jumped in mid-log: put back where two courses interleave, else put forward. */
export function clockFacts(all: readonly ScannedSeries[]): Partial<Facts> {
  const back = backwardJump(all);
  if (back !== undefined)
    return {
      clock_jump: 'back',
      clock_sign: 'interleaved',
      clock_column: back.column,
      clock_jump_s: back.jumpS,
      clock_jump_start_s: back.startS,
    };
  const forward = forwardJump(all);
  if (forward === undefined) return {};
  return {
    clock_jump: 'forward',
    clock_sign: forward.sign,
    clock_column: forward.column,
    clock_jump_s: forward.jumpS,
    clock_jump_start_s: forward.startS,
  };
}
