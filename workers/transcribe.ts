import { UnrecoverableError } from 'bullmq';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { say } from '../bot/say.js';
import type { Heard } from '../src/desk/heard.js';
import type { Running, WorkerDeps } from './deps.js';
import { download, wholeOf } from './download.js';
import type { EffectData } from './queues.js';
import { whileTyping } from './typing.js';
import { runWorker } from './worker.js';

/** Has voice notes listened to by the recogniser that the settings name, and says what came of it. */
export function runTranscribe(deps: WorkerDeps): Running {
  return runWorker(deps, 'transcribe', (data) => transcribe(deps, data), { concurrency: 1 });
}

async function transcribe(deps: WorkerDeps, { key, handle, chat }: EffectData): Promise<void> {
  if (typeof key !== 'string' || typeof handle !== 'string')
    throw new UnrecoverableError('a voice note has key and handle');
  const { desk, api, record } = deps;
  const work = (): Promise<Heard | null> => listen(deps, handle);
  const heard = await (typeof chat === 'number' ? whileTyping(api, chat, work) : work());
  const done = await desk.transcribed(key, heard);
  if (done) await say(api, record, done.chatId, done.answer, `${key}v`, done.replyTo);
}

async function listen({ api, token, apiRoot, recognise }: WorkerDeps, handle: string): Promise<Heard | null> {
  if (recognise === null) return null;
  const found = await download(api, token, apiRoot, handle);
  if (found.outcome !== 'found') return null;
  const bytes = await wholeOf(found.content);
  if (bytes === null) return null;
  const folder = await mkdtemp(join(tmpdir(), 'benchhand-voice-'));
  try {
    const path = join(folder, 'note.oga');
    await writeFile(path, bytes);
    return await recognise(path, found.mime ?? 'audio/ogg');
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
