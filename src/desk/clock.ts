/** Shop time, in ms. For a rehearsal it is read from the record, so that all processes share one clock. */
export type Clock = { now: () => Promise<number> };
