import type { Ahead } from './bench/read-ahead.js';
import type { DeskDeps } from './deps.js';
import type { Store } from './store.js';

/** What every use case is handed; `ahead`: the message in hand as it was read before anything was asked of the record. */
export type Workplace = { deps: DeskDeps; store: Store; ahead?: Ahead | null };
