import type { Running, WorkerDeps } from './deps.js';
import { runFetch } from './fetch.js';
import { runRelay } from './relay.js';
import { runSend } from './send.js';
import { runTranscribe } from './transcribe.js';
import { runWake } from './wake.js';

export const WORKERS = ['relay', 'wake', 'send', 'fetch', 'transcribe'] as const;
export type WorkerName = (typeof WORKERS)[number];

/** Starts the workers named, in one process. `id` tells this process from others on the same Redis. */
export async function startWorkers(
  deps: WorkerDeps,
  names: readonly WorkerName[],
  id: string,
): Promise<Running[]> {
  return Promise.all(names.map((name) => start(deps, name, id)));
}

async function start(deps: WorkerDeps, name: WorkerName, id: string): Promise<Running> {
  switch (name) {
    case 'relay':
      return runRelay(deps, id);
    case 'wake':
      return runWake(deps);
    case 'send':
      return runSend(deps);
    case 'fetch':
      return runFetch(deps);
    case 'transcribe':
      return runTranscribe(deps);
  }
}
