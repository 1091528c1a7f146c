import { daysAt, standardQuantile, type LeadTime } from '../lead-times/lead-time.js';

/** Lengths are drawn from so many equally likely values: the middles of as many slices of the spread. */
export const SLICES = 512;
const SLICE_SHIFT = 23;
const MIDDLE = SLICES / 2;

/** Degrees of freedom past which Student's t is taken as normal: its quartiles then differ by 1 %. */
const NEARLY_NORMAL = 60;

/** Where a spread cut off at its start is reckoned exactly; between, log(days) is taken as straight. */
const KNOTS = [0, 1, 2, 4, 8, 16, ...range(32, 480, 32), 496, 504, 508, 510, 511];

/** A length in ticks that is past the horizon; the most activities that a model may have still add up in 32 bits. */
const LONGEST = 0x7ffff;

/** Filled anew for each table, and read at once. */
const scratch = new Float64Array(SLICES);

const deviates = new Map<number, Float64Array>();

/**
 * The lengths that a lead time may have, in ticks, each as likely as the next, less what has gone by already.
 * `ticks` is the ticks of one unit of the lead time. `least` is the
 * shortest, in ticks. Degrees of freedom are rounded to whole ones.
 */
export function lengthTable(lead: LeadTime, ticks: number, later: number, least: 0 | 1): Int32Array {
  const table = new Int32Array(SLICES);
  const days = lead.atLeast > lead.from ? cutOff(lead) : whole(lead);
  const gone = lead.atLeast - later;
  for (let k = 0; k < SLICES; k += 1) {
    table[k] = Math.max(least, Math.min(LONGEST, Math.round(((days[k] as number) - gone) * ticks)));
  }
  return table;
}

/** The middle length of a table. */
export function middleOf(table: Int32Array): number {
  return table[MIDDLE] ?? 0;
}

/**
 * Fills lengths[from .. from + runs] with draws from a table. `state` is that of xoshiro128** (see `random.ts`, whose
 * step is repeated here so that it stays in registers), and is moved on.
 */
export function drawRow(
  table: Int32Array,
  state: Int32Array,
  lengths: Int32Array,
  from: number,
  runs: number,
): void {
  let a = state[0] as number;
  let b = state[1] as number;
  let c = state[2] as number;
  let d = state[3] as number;
  for (let k = from; k < from + runs; k += 1) {
    const five = Math.imul(b, 5);
    const word = Math.imul((five << 7) | (five >>> 25), 9);
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = (d << 11) | (d >>> 21);
    lengths[k] = table[word >>> SLICE_SHIFT] as number;
  }
  state[0] = a;
  state[1] = b;
  state[2] = c;
  state[3] = d;
}

function whole({ location, scale, freedom, from }: LeadTime): Float64Array {
  const standard = standardDeviates(freedom);
  for (let k = 0; k < SLICES; k += 1) {
    scratch[k] = from + Math.exp(location + scale * (standard[k] as number));
  }
  return scratch;
}

function cutOff(lead: LeadTime): Float64Array {
  let left = 0;
  let before = Math.log(daysAt(lead, chance(0)));
  for (const right of KNOTS) {
    const after = Math.log(daysAt(lead, chance(right)));
    for (let k = left; k <= right; k += 1) {
      const share = right === left ? 0 : (k - left) / (right - left);
      scratch[k] = Math.exp(before + share * (after - before));
    }
    left = right;
    before = after;
  }
  return scratch;
}

function standardDeviates(freedom: number): Float64Array {
  const whole = freedom >= NEARLY_NORMAL ? Infinity : Math.max(1, Math.round(freedom));
  const known = deviates.get(whole);
  if (known) return known;
  const reckoned = Float64Array.from({ length: SLICES }, (_, k) => standardQuantile(chance(k), whole));
  deviates.set(whole, reckoned);
  return reckoned;
}

function chance(slice: number): number {
  return (slice + 0.5) / SLICES;
}

function range(first: number, last: number, step: number): number[] {
  return Array.from({ length: (last - first) / step + 1 }, (_, k) => first + k * step);
}
