import type { Measured } from '../reading.js';
import type { Quantity } from '../../trade/terms.js';
import type { Chunk, ChunkOf } from '../tagging/chunk.js';

const LENGTHS = new Set(['mm', 'thou', 'in', 'tenths', 'um', 'cm']);

/** What a part is measured for where nothing else says it. */
type Subject = { quantities: readonly Quantity[]; part: string } | null;

const FITS: Partial<Record<string, readonly Quantity[]>> = {
  'lbf.ft': ['torque'],
  'N.m': ['torque'],
  'lbf.in': ['torque'],
};

/** How large a thing is, as against how far it is from true, or from what it runs in. */
const SIZE = /^(diameter|bore|length|free-length|depth)$/;
/** Lengths in each unit below which nothing at a bench is that size; common practice, no source. */
const LEAST_SIZE: Partial<Record<string, number>> = {
  thou: 100,
  mm: 1,
  in: 0.03,
  tenths: Infinity,
  um: Infinity,
};

const isSlight = (value: number, unit: string): boolean => Math.abs(value) < (LEAST_SIZE[unit] ?? 0);

/** The quantity word nearest to the value, before it first. */
function wordFor(said: readonly Chunk[], at: number, unit: string): Quantity | null {
  const before = said.slice(0, at).findLast((chunk) => chunk.kind === 'quantity' || chunk.kind === 'measure');
  const after = said[at + 1];
  const near = after?.kind === 'quantity' && after.from - (said[at]?.to ?? 0) <= 2 ? after.quantity : null;
  const quantity = near ?? (before?.kind === 'quantity' ? before.quantity : null);
  if (quantity === null) return null;
  const length = LENGTHS.has(unit);
  const ofLength = !/^(torque|pressure|voltage|resistance|temperature|mass|count)$/.test(quantity);
  return length === ofLength || quantity === 'deflection' ? quantity : null;
}

/** A condition's word tells what was measured: "six thou oval", "bent by ten thou". */
function byCondition(said: readonly Chunk[], unit: string): Quantity | null {
  if (!LENGTHS.has(unit)) return null;
  const conditions = said
    .filter((chunk): chunk is ChunkOf<'condition'> => chunk.kind === 'condition')
    .map((chunk) => chunk.condition);
  if (conditions.includes('oval')) return 'ovality';
  if (conditions.includes('out-of-true') || conditions.includes('bent')) return 'runout';
  if (conditions.includes('loose')) return 'clearance';
  return null;
}

/** The values told, each with what it is of. */
export function measuredOf(said: readonly Chunk[], subject: Subject): Measured[] {
  return said.flatMap((chunk, at): Measured[] => {
    if (chunk.kind !== 'measure') return [];
    const own = chunk.quantity;
    const defaults =
      subject?.quantities.filter(
        (quantity) =>
          LENGTHS.has(chunk.unit) ===
            !/^(torque|pressure|voltage|resistance|temperature|mass|count)$/.test(quantity) &&
          !(SIZE.test(quantity) && isSlight(chunk.value, chunk.unit)),
      ) ?? [];
    const specific = own !== null && own !== 'other' ? own : null;
    const quantity =
      specific ??
      FITS[chunk.unit]?.[0] ??
      wordFor(said, at, chunk.unit) ??
      byCondition(said, chunk.unit) ??
      own ??
      defaults[0] ??
      'other';
    return [{ quantity, value: chunk.value, unit: chunk.unit }];
  });
}
