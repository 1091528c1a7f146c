import jStat from 'jstat';

/**
 * How long something may take: `from + exp(location + scale × t)` days, `t` Student's t with `freedom` degrees
 * (the normal, so a plain lognormal, where that is Infinity), given that it takes longer than `atLeast` days.
 * A bench job's hours have the same shape.
 */
export type LeadTime = {
  /** Mean of log(days). */
  location: number;
  /** Spread of log(days); 0 for a time known exactly. */
  scale: number;
  freedom: number;
  /** Days gone before the spread begins, as for a date promised half-way; 0 as a rule. */
  from: number;
  /** It is known not to have ended by then; 0 for a thing that hasn't begun. */
  atLeast: number;
};

/** Less than half a day can't be told from half a day, and nothing has no logarithm. */
export const SHORTEST_DAYS = 0.5;

/** A lognormal lead time by its median and the standard deviation of its logarithm. */
export function lognormal(median: number, spread: number): LeadTime {
  return { location: Math.log(median), scale: spread, freedom: Infinity, from: 0, atLeast: 0 };
}

/** The same lead time, known not to have ended after `days`. */
export function stillOutAfter(lead: LeadTime, days: number): LeadTime {
  return { ...lead, atLeast: Math.max(lead.atLeast, days) };
}

/**
 * The days by which it has ended with chance `p` (0 < p < 1). With `atLeast` this is F⁻¹(F(e) + p(1 − F(e))),
 * the quantile given survival past e.
 */
export function daysAt(lead: LeadTime, p: number): number {
  if (lead.scale === 0) return Math.max(lead.atLeast, lead.from + Math.exp(lead.location));
  const gone = unconditional(lead, lead.atLeast);
  // Far in the tail 1 − F runs out of digits; then nothing is known but that it takes longer.
  if (gone >= 1 - 1e-12) return lead.atLeast * (1 + p);
  const deviate = standardQuantile(gone + p * (1 - gone), lead.freedom);
  return Math.max(lead.atLeast, lead.from + Math.exp(lead.location + lead.scale * deviate));
}

/** The chance that it has ended by `days`. */
export function chanceBy(lead: LeadTime, days: number): number {
  if (days < lead.atLeast) return 0;
  const gone = unconditional(lead, lead.atLeast);
  if (gone >= 1) return 1;
  return (unconditional(lead, days) - gone) / (1 - gone);
}

/** Quantile of Student's t, or of the normal for infinite freedom. */
export function standardQuantile(p: number, freedom: number): number {
  return Number.isFinite(freedom) ? jStat.studentt.inv(p, freedom) : jStat.normal.inv(p, 0, 1);
}

function unconditional(lead: LeadTime, days: number): number {
  const left = days - lead.from;
  if (left <= 0) return 0;
  if (lead.scale === 0) return Math.log(left) >= lead.location ? 1 : 0;
  const deviate = (Math.log(left) - lead.location) / lead.scale;
  return Number.isFinite(lead.freedom)
    ? jStat.studentt.cdf(deviate, lead.freedom)
    : jStat.normal.cdf(deviate, 0, 1);
}
