import { wordAt } from '../text/word-at.js';
import { step, type Settle, type Step } from './settle.js';

/** Chunks between a word of measuring and its value, at most. */
const NEAR = 5;

/** "compression's 110 pounds on the left": pounds of pressure or of weight, not of money. */
const settlePounds: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    const pounds =
      chunk.kind === 'money' &&
      /^(pounds?|lbs?)$/.test(wordAt(tokens, chunk.to - 1)) &&
      !chunk.cost.each &&
      chunk.cost.vat === null;
    if (!pounds) return chunk;
    const before = chunks.slice(Math.max(0, at - NEAR), at);
    const since = before.slice(before.findLastIndex((one) => one.kind === 'break') + 1);
    const told = since.findLast((one) => one.kind === 'quantity' || one.kind === 'measure');
    const unit =
      told?.kind === 'measure'
        ? told.unit
        : told?.kind === 'quantity'
          ? { pressure: 'psi', mass: 'lb' }[told.quantity as string]
          : undefined;
    return unit === 'psi' || unit === 'lb'
      ? {
          from: chunk.from,
          to: chunk.to,
          kind: 'measure',
          value: chunk.cost.amount,
          unit,
          quantity: unit === 'psi' ? 'pressure' : 'mass',
        }
      : chunk;
  });

const SPRINGS = /spring|damper|shock absorber|battery|magneto|magnet/;

/** "springs are tired": a spring, a damper or a battery grows weak where other things wear. */
const settleTired: Settle = (chunks, tokens) =>
  chunks.map((chunk, at) => {
    if (chunk.kind !== 'condition' || wordAt(tokens, chunk.from) !== 'tired') return chunk;
    const part = chunks.slice(0, at).findLast((one) => one.kind === 'part') ?? chunks[at + 1];
    return part?.kind === 'part' && SPRINGS.test(part.part) ? { ...chunk, condition: 'weak' } : chunk;
  });

/** Words of measuring, and of what wears out, settled by what they are said of. */
export const MEASURE_STEPS: readonly Step[] = [
  step(settlePounds, 'pounds pound lbs lb'),
  step(settleTired, 'tired'),
];
