/** A clamp lags, and sun comes and goes: so long before and after a moment the pipe is looked at [s]. Common practice, no source. */
const aroundS = 300;
/** Readings of so long are taken together [s]. */
const bucketS = 60;

/**
 * By what ratio the temperature of the pipe moved around each reading: what gas that went along with it could have done to
 * its pressure.
 *
 * @param elapsedS [s], ascending; @param lineK [K], NaN where not read
 * @returns ratio per reading; NaN where the pipe was not read around it
 */
export function warmingRatio(elapsedS: Float64Array, lineK: Float64Array): Float64Array {
  const fromS = elapsedS[0] ?? 0;
  const bucketOf = (atS: number) => Math.floor((atS - fromS) / bucketS);
  const extremes = new Map<number, { low: number; high: number }>();
  for (let at = 0; at < lineK.length; at += 1) {
    if (!(lineK[at] > 0)) continue;
    const bucket = bucketOf(elapsedS[at]);
    const { low, high } = extremes.get(bucket) ?? { low: lineK[at], high: lineK[at] };
    extremes.set(bucket, { low: Math.min(low, lineK[at]), high: Math.max(high, lineK[at]) });
  }
  const around = aroundS / bucketS;
  const known = new Map<number, number>();
  const ratioAt = (bucket: number) => {
    let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (let near = bucket - around; near <= bucket + around; near += 1) {
      const found = extremes.get(near);
      if (found === undefined) continue;
      low = Math.min(low, found.low);
      high = Math.max(high, found.high);
    }
    return high >= low ? high / low - 1 : Number.NaN;
  };
  return elapsedS.map((atS) => {
    const bucket = bucketOf(atS);
    const ratio = known.get(bucket) ?? ratioAt(bucket);
    known.set(bucket, ratio);
    return ratio;
  });
}
