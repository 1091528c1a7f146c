import type { DeskDeps } from './deps.js';
import type { Store } from './store.js';

/** What every use case is handed. */
export type Workplace = { deps: DeskDeps; store: Store };
