/** Counts schedules, keeps the best one, and says when to end. */
export type Tally = {
  /** Counts one generation pass; keeps the schedule where it can be used as it is and is the best so far. */
  note(start: Int32Array, value: number, usable: boolean): void;
  over(): boolean;
  schedules(): number;
  best(): { start: Int32Array; value: number };
};

/** When to end: after so many schedules, at a value that can't be bettered, or when told to (asked after each pass). */
export type Limits = { schedules: number; bound: number; stop: () => boolean };

export function tallyOf(size: number, limits: Limits): Tally {
  const start = new Int32Array(size);
  let value = Infinity;
  let schedules = 0;
  let stopped = false;
  return {
    note: (found, foundValue, usable) => {
      schedules += 1;
      if (usable && foundValue < value) {
        value = foundValue;
        start.set(found);
      }
      // A usable one comes first of all, so that stopping at once still leaves a schedule.
      stopped ||= value < Infinity && limits.stop();
    },
    over: () => stopped || value <= limits.bound || (schedules >= limits.schedules && value < Infinity),
    schedules: () => schedules,
    best: () => ({ start, value }),
  };
}
