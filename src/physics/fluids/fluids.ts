import type { Fluid } from '../equations/fluid.ts';
import { r1234yf } from './r-1234yf.ts';
import { r1234zeE } from './r-1234ze-e.ts';
import { r125 } from './r-125.ts';
import { r134a } from './r-134a.ts';
import { r143a } from './r-143a.ts';
import { r22 } from './r-22.ts';
import { r290 } from './r-290.ts';
import { r32 } from './r-32.ts';

/** Every pure refrigerant; a new one is one file and its line here. */
export const refrigerantFluids: readonly Fluid[] = [r22, r32, r125, r134a, r143a, r290, r1234yf, r1234zeE];
