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
  let last = Number.NaN;
  let found = { low: Number.NaN, high: Number.NaN };
  for (let at = 0; at < lineK.length; at += 1) {
    const kelvin = lineK[at];
    if (!(kelvin > 0)) continue;
    const bucket = bucketOf(elapsedS[at]);
    if (bucket !== last) {
      last = bucket;
      found = { low: kelvin, high: kelvin };
      extremes.set(bucket, found);
    } else if (kelvin < found.low) found.low = kelvin;
    else if (kelvin > found.high) found.high = kelvin;
  }
  const around = aroundS / bucketS;
  const ratioAt = (bucket: number) => {
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    for (let near = bucket - around; near <= bucket + around; near += 1) {
      const beside = extremes.get(near);
      if (beside === undefined) continue;
      low = Math.min(low, beside.low);
      high = Math.max(high, beside.high);
    }
    return high >= low ? high / low - 1 : Number.NaN;
  };
  const ratios = new Float64Array(elapsedS.length);
  let known = Number.NaN;
  let ratio = Number.NaN;
  for (let at = 0; at < elapsedS.length; at += 1) {
    const bucket = bucketOf(elapsedS[at]);
    if (bucket !== known) {
      known = bucket;
      ratio = ratioAt(bucket);
    }
    ratios[at] = ratio;
  }
  return ratios;
}
