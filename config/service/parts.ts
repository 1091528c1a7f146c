import { WORKERS } from '../../workers/workers.js';
import type { WorkerName } from '../../workers/workers.js';
import type { Parts } from './service.js';

export type PartsReading = { ok: true; parts: Parts } | { ok: false; problem: string };

/** What `--only` asks for: `bot`, `workers`, or workers by name, joined by commas. Without it, everything. */
export function readParts(only: string | undefined): PartsReading {
  if (only === undefined) return { ok: true, parts: { bot: true, workers: WORKERS } };
  const asked = only.split(',').map((part) => part.trim());
  const known: readonly string[] = ['bot', 'workers', ...WORKERS];
  const unknown = asked.find((part) => !known.includes(part));
  if (unknown !== undefined)
    return { ok: false, problem: `--only knows ${known.join(', ')}; not "${unknown}"` };
  const workers: readonly WorkerName[] = asked.includes('workers')
    ? WORKERS
    : WORKERS.filter((name) => asked.includes(name));
  return { ok: true, parts: { bot: asked.includes('bot'), workers } };
}
