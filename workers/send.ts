import { randomUUID } from 'node:crypto';
import { UnrecoverableError } from 'bullmq';
import { GrammyError, HttpError } from 'grammy';
import { say } from '../bot/say.js';
import type { Running, WorkerDeps } from './deps.js';
import type { EffectData } from './queues.js';
import { runWorker } from './worker.js';

/** The chat service asks for no more than about 30 messages a second over all chats (Bot API FAQ). */
const LIMIT = { max: 25, duration: 1_000 };

/** Sends intended messages: recorded before and after, worded as things stand when they go. */
export function runSend(deps: WorkerDeps): Running {
  return runWorker(deps, 'send', (data) => send(deps, data), {
    concurrency: deps.concurrency,
    limiter: LIMIT,
  });
}

async function send(deps: WorkerDeps, data: EffectData): Promise<void> {
  const { record } = deps;
  const { contact, message } = data;
  if (typeof contact !== 'string' || typeof message !== 'string')
    throw new UnrecoverableError('a send names contact and message');
  const name = `send-${contact}-${message}`;
  const holder = randomUUID();
  // Asked for twice at once, it is sent by one: the other finds it sent when it comes again.
  if (!(await record.lease.take(name, holder, deps.lockMs)))
    throw new Error('the message is being sent by another worker');
  const renewing = setInterval(
    () => void record.lease.renew(name, holder, deps.lockMs).catch(() => false),
    deps.lockMs / 3,
  );
  try {
    await sendHeld(deps, contact, message);
  } finally {
    clearInterval(renewing);
    await record.lease.release(name, holder);
  }
}

async function sendHeld(deps: WorkerDeps, contact: string, message: string): Promise<void> {
  const { desk, record, clock, api } = deps;
  const prepared = await desk.prepareSend(contact, message, await clock.now());
  if (prepared.outcome !== 'send') return;
  const { chatId, answer, about, perhapsRepeated, attempt } = prepared;
  try {
    const { messageId } = await say(api, record, chatId, answer, message);
    await desk.sent(
      contact,
      message,
      { chatMessage: messageId ?? 0, about, perhapsRepeated, answer },
      await clock.now(),
    );
  } catch (error) {
    await settle(deps, contact, message, attempt, error);
  }
}

/** A refusal for good is recorded as failed; anything else as postponed, and thrown for the queue to try again. */
async function settle(
  { desk, clock }: WorkerDeps,
  contact: string,
  message: string,
  attempt: string,
  error: unknown,
): Promise<void> {
  const now = await clock.now();
  if (error instanceof GrammyError) {
    const { error_code: code } = error;
    if (code !== 429 && code < 500) return desk.failed(contact, message, `${code}`, now);
    // A server that breaks down may have done so after the message went.
    await desk.postponed(contact, message, code === 429 ? 'turned-away' : 'no-answer', attempt, now);
  } else if (error instanceof HttpError) {
    await desk.postponed(contact, message, neverArrived(error) ? 'turned-away' : 'no-answer', attempt, now);
  }
  throw error;
}

/** Whether the connection was never made, so that the message can't have gone. */
function neverArrived({ error }: HttpError): boolean {
  const code = (error as { code?: unknown; cause?: { code?: unknown } } | null)?.code;
  return code === 'ECONNREFUSED' || code === 'ENOTFOUND' || code === 'EAI_AGAIN';
}
