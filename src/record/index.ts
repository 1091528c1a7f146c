export { openRecord } from './record.js';
export type { RecordOptions } from './record.js';
export { commit, StreamBusyError } from './commit.js';
export type { Committed, CommitOptions, Consequences, Decision } from './commit.js';
export { readState } from './fold.js';
export type { Fold, Folded } from './fold.js';
export { isUnknownOutcome } from './patience.js';
export { queuePrefix } from './keys.js';
export type * from './types.js';
