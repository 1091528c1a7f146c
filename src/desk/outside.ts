/** What lies outside the record, of which a mechanic may want to know, and the keeping of back-ups. */
export type Outside = {
  /** The longest that anything in outbox and queues has waited that could be done now, ms of machine time; null: nothing waits. */
  longestWaitMs: () => Promise<number | null>;
  /** How long ago what is due was last looked at, ms of machine time; null: not that anybody remembers. */
  wokeAgoMs: () => Promise<number | null>;
  /** The disk that pictures are kept on. */
  disk: () => Promise<{ freeBytes: number; wholeBytes: number }>;
  redis: () => Promise<RedisAccount>;
  /** Keeps and prunes back-ups; null where none are kept here. */
  backUp: KeepBackUp | null;
};

/** The Redis's own account of itself, and what speaks against it. */
export type RedisAccount = {
  version: string;
  appendOnly: boolean;
  fsync: string | null;
  /** Whether it may throw data away when it is full. */
  evicts: boolean;
  warnings: readonly string[];
};

/** Writes the back-up of a local day, and prunes the older ones. Throws where it can't. */
export type KeepBackUp = (day: string) => Promise<{
  name: string;
  bytes: number;
  events: number;
  files: number;
}>;
