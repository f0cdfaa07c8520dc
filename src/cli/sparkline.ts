/** Bars of one line of text, lowest to highest. */
export const bars = ['▁', '▂', '▃', '▄', '▅', '▆', '▇', '█'];

/**
 * A curve in one line of text: the mean of each stretch of time, lowest to highest; a dot where nothing was read.
 *
 * @example sparkline([0, 1, 2, 3], [1, 2, 3, 4], 4) // '▁▃▆█'
 */
export function sparkline(times: readonly number[], values: readonly number[], width: number): string {
  const first = times[0] ?? 0;
  const span = (times.at(-1) ?? 0) - first || 1;
  const sums = new Float64Array(width);
  const counts = new Float64Array(width);
  for (let i = 0; i < times.length; i += 1) {
    if (Number.isNaN(values[i])) continue;
    const place = Math.min(width - 1, Math.floor(((times[i] - first) / span) * width));
    sums[place] += values[i];
    counts[place] += 1;
  }
  const means = Array.from(sums, (sum, place) => (counts[place] === 0 ? Number.NaN : sum / counts[place]));
  const known = means.filter((mean) => !Number.isNaN(mean));
  const low = Math.min(...known);
  const range = Math.max(...known) - low || 1;
  return means
    .map((mean) =>
      Number.isNaN(mean) ? '·' : bars[Math.min(bars.length - 1, Math.floor(((mean - low) / range) * bars.length))],
    )
    .join('');
}
