import { UnrecoverableError } from 'bullmq';
import type { Fetched } from '../src/desk/desk.js';
import type { Running, WorkerDeps } from './deps.js';
import { download, FILE_LIMIT_BYTES } from './download.js';
import type { EffectData } from './queues.js';
import { runWorker } from './worker.js';

/** Fetches pictures and voice notes from the chat and keeps them by their content. */
export function runFetch(deps: WorkerDeps): Running {
  return runWorker(deps, 'fetch', (data) => fetchFile(deps, data), {
    concurrency: Math.min(4, deps.concurrency),
  });
}

async function fetchFile(deps: WorkerDeps, { job, unique, handle }: EffectData): Promise<void> {
  if (typeof job !== 'string' || typeof unique !== 'string' || typeof handle !== 'string') {
    throw new UnrecoverableError('a fetch names job, file and handle');
  }
  await deps.desk.fetched(job, unique, await keep(deps, handle), await deps.clock.now());
}

async function keep({ record, api, token, apiRoot }: WorkerDeps, handle: string): Promise<Fetched> {
  const found = await download(api, token, apiRoot, handle);
  if (found.outcome !== 'found') return { lost: found.outcome };
  const { content, mime } = found;
  const kept = await record.files.put(content, {
    limitBytes: FILE_LIMIT_BYTES,
    ...(mime === undefined ? {} : { mime }),
  });
  if (kept.outcome === 'kept') return { hash: kept.hash };
  return { lost: kept.reason === 'too-big' ? 'too-big' : 'no-room' };
}
