import type { Token } from '../text/tokens.js';
import type { Day } from './day-arithmetic.js';

/** A date found in a run of tokens: from `at`, `length` tokens long. */
export type FoundDate = { date: Day; length: number; sure: boolean };

export type DateRule = (tokens: readonly Token[], at: number, today: Day) => FoundDate | null;

export const found = (date: Day | null, length: number, sure = true): FoundDate | null =>
  date === null || !date.isValid ? null : { date, length, sure };

/** The longest of several rules' answers. */
export function longest(rules: readonly DateRule[]): DateRule {
  return (tokens, at, today) => {
    let best: FoundDate | null = null;
    for (const rule of rules) {
      const answer = rule(tokens, at, today);
      if (answer !== null && (best === null || answer.length > best.length)) best = answer;
    }
    return best;
  };
}
