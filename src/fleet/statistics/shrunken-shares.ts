import { betaQuantile, logBeta } from '../../numerics/beta-distribution.ts';
import { digamma, trigamma } from '../../numerics/gamma-function.ts';

/** Of so many jobs so many have the trait. */
export interface Tally {
  /** Whole, 0…jobs. */
  readonly found: number;
  /** Whole, 0 or more. */
  readonly jobs: number;
}

/** How the true shares of units lie among each other: a beta distribution. */
export interface ShareSpread {
  readonly alpha: number;
  readonly beta: number;
}

/** What is believed of a unit's true share once the others are known as well, ratios 0…1. */
export interface ShrunkenShare {
  readonly share: number;
  /** 95 of 100 such shares lie between. */
  readonly low: number;
  readonly high: number;
}

/** Units that differ less than jobs of one unit a million times over are taken for alike. */
const mostJobs = 1e6;
const leastJobs = 0.05;
const mostSteps = 100;

/**
 * How the true shares of units lie: the beta distribution under which what was found is likeliest.
 *
 * @param tallies one a unit; those without jobs tell nothing
 * @returns undefined where no unit has a job, or none or all jobs have the trait: nothing tells how units differ
 *
 * Source: `griffiths-1973` (beta-binomial by maximum likelihood), by Newton's method on the logit of the mean and the logarithm of
 * alpha + beta. Accuracy: reproduces the surgical example (`openbugs-surgical`) to a millionth.
 *
 * @example fitShareSpread([{ found: 0, jobs: 9 }]) === undefined // true
 */
export function fitShareSpread(tallies: readonly Tally[]): ShareSpread | undefined {
  const told = tallies.filter(({ jobs }) => jobs > 0);
  const [found, jobs] = [sum(told.map((each) => each.found)), sum(told.map((each) => each.jobs))];
  if (jobs === 0 || found === 0 || found === jobs) return undefined;
  let at: Point = { logit: Math.log(found / (jobs - found)), logJobs: Math.log(30) };
  let now = slopesAt(told, at);
  for (let step = 0; step < mostSteps; step += 1) {
    const next = better(told, at, now);
    if (next === undefined) break;
    const moved = Math.abs(next.at.logit - at.logit) + Math.abs(next.at.logJobs - at.logJobs);
    [at, now] = [next.at, next.now];
    if (moved < 1e-10) break;
  }
  return spreadAt(at);
}

interface Point {
  readonly logit: number;
  readonly logJobs: number;
}

interface Slopes {
  readonly likelihood: number;
  readonly gradient: readonly [number, number];
  /** In the order mean–mean, mean–jobs, jobs–jobs. */
  readonly curvature: readonly [number, number, number];
}

function spreadAt({ logit, logJobs }: Point): ShareSpread {
  const mean = 1 / (1 + Math.exp(-logit));
  const all = Math.exp(logJobs);
  return { alpha: mean * all, beta: (1 - mean) * all };
}

/** Newton's step, shortened until the likelihood rises; undefined where it cannot. */
function better(tallies: readonly Tally[], at: Point, now: Slopes): { at: Point; now: Slopes } | undefined {
  const [g0, g1] = now.gradient;
  const [h00, h01, h11] = now.curvature;
  // Where the likelihood does not bend down on all sides it is taken to, so that the step leads uphill.
  const steepest = (h00 + h11) / 2 + Math.hypot((h00 - h11) / 2, h01);
  const shift = Math.max(0, steepest + 0.01 * (Math.abs(h00) + Math.abs(h11)) + 1e-12);
  const [s00, s11] = [h00 - shift, h11 - shift];
  const determinant = s00 * s11 - h01 * h01;
  let [d0, d1] = [(-g0 * s11 + g1 * h01) / determinant, (-g1 * s00 + g0 * h01) / determinant];
  // At an end of what is looked at only the mean can still be bettered.
  const isOut = d1 > 0 ? at.logJobs >= Math.log(mostJobs) : at.logJobs <= Math.log(leastJobs);
  if (isOut) [d0, d1] = [alongMean(g0, h00), 0];
  const longest = Math.max(Math.abs(d0), Math.abs(d1) / 2);
  if (longest > 1) [d0, d1] = [d0 / longest, d1 / longest];
  for (let half = 0; half < 40; half += 1) {
    const logJobs = Math.min(Math.log(mostJobs), Math.max(Math.log(leastJobs), at.logJobs + d1));
    const tried = { logit: at.logit + d0, logJobs };
    const slopes = slopesAt(tallies, tried);
    if (slopes.likelihood > now.likelihood) return { at: tried, now: slopes };
    [d0, d1] = [d0 / 2, d1 / 2];
  }
  return undefined;
}

function alongMean(slope: number, curvature: number): number {
  return curvature < 0 ? -slope / curvature : Math.sign(slope);
}

/** The logarithm of the likelihood, and how it changes with the logit of the mean and the logarithm of alpha + beta. */
function slopesAt(tallies: readonly Tally[], at: Point): Slopes {
  const { alpha, beta } = spreadAt(at);
  const all = alpha + beta;
  const mean = alpha / all;
  const base = [digamma(alpha), digamma(beta), digamma(all), trigamma(alpha), trigamma(beta), trigamma(all)] as const;
  const logBase = logBeta(alpha, beta);
  let likelihood = 0;
  // By alpha and by beta, then the second ones: alpha–alpha, alpha–beta, beta–beta.
  let [a, b, aa, ab, bb] = [0, 0, 0, 0, 0];
  for (const { found, jobs } of tallies) {
    const rest = jobs - found;
    likelihood += logBeta(alpha + found, beta + rest) - logBase;
    const common = base[2] - digamma(all + jobs);
    a += digamma(alpha + found) - base[0] + common;
    b += digamma(beta + rest) - base[1] + common;
    const commonSlope = base[5] - trigamma(all + jobs);
    aa += trigamma(alpha + found) - base[3] + commonSlope;
    bb += trigamma(beta + rest) - base[4] + commonSlope;
    ab += commonSlope;
  }
  // d alpha / d logit = all · mean · (1 − mean) = −d beta / d logit; d alpha / d logJobs = alpha; d beta / d logJobs = beta.
  const swing = all * mean * (1 - mean);
  const twice = swing * (1 - 2 * mean);
  return {
    likelihood,
    gradient: [swing * (a - b), alpha * a + beta * b],
    curvature: [
      swing * swing * (aa - 2 * ab + bb) + twice * (a - b),
      swing * (alpha * (aa - ab) + beta * (ab - bb)) + swing * (a - b),
      alpha * alpha * aa + 2 * alpha * beta * ab + beta * beta * bb + alpha * a + beta * b,
    ],
  };
}

/**
 * The share of a unit as it is believed once it is known how units differ: drawn to the mean, the more the fewer its jobs.
 *
 * @example shrunkenShare({ found: 31, jobs: 215 }, { alpha: 8.253495, beta: 99.636927 }).share // 0.1215691
 */
export function shrunkenShare({ found, jobs }: Tally, { alpha, beta }: ShareSpread): ShrunkenShare {
  const [a, b] = [alpha + found, beta + jobs - found];
  return { share: a / (a + b), low: betaQuantile(0.025, a, b), high: betaQuantile(0.975, a, b) };
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
