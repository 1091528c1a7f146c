import { randomUUID } from 'node:crypto';
import { UnrecoverableError, Worker } from 'bullmq';
import { GrammyError, HttpError } from 'grammy';
import { say } from '../bot/say.js';
import type { Running, WorkerDeps } from './deps.js';
import type { EffectData } from './queues.js';
import { makeTurns } from './turns.js';
import { runWorker } from './worker.js';

/** The chat service asks for no more than about 30 messages a second over all chats (Bot API FAQ). */
const LIMIT = { max: 25, duration: 1_000 };

type Message = { contact: string; message: string };

/**
 * Sends intended messages: recorded before and after, worded as things stand when they go. Those to one person go in turn, and
 * one that the server turned away waits here with its turn until the server's pause is over.
 */
export function runSend(deps: WorkerDeps): Running {
  const inTurn = makeTurns();
  const stopping = new AbortController();
  const handle = async (data: EffectData): Promise<void> => {
    const { contact, message } = data;
    if (typeof contact !== 'string' || typeof message !== 'string')
      throw new UnrecoverableError('a send names contact and message');
    await inTurn(contact, () => untilTaken(deps, { contact, message }, stopping.signal));
  };
  const worker = runWorker(deps, 'send', handle, { concurrency: deps.concurrency, limiter: LIMIT });
  return {
    name: worker.name,
    stop: async (hurry) => {
      stopping.abort();
      await worker.stop(hurry);
    },
  };
}

async function untilTaken(deps: WorkerDeps, message: Message, stopping: AbortSignal): Promise<void> {
  for (;;) {
    try {
      await deps.pause.over(stopping);
    } catch {
      // Put back unspent: whoever goes on keeps to the pause by the queue.
      throw Worker.RateLimitError();
    }
    if ((await send(deps, message)) !== 'turned-away') return;
  }
}

async function send(deps: WorkerDeps, message: Message): Promise<'settled' | 'turned-away'> {
  const { record, lockMs } = deps;
  const name = `send-${message.contact}-${message.message}`;
  const holder = randomUUID();
  // Asked for twice at once, it is sent by one: the other finds it sent when it comes again.
  if (!(await record.lease.take(name, holder, lockMs)))
    throw new Error('the message is being sent by another worker');
  const renewing = setInterval(
    () => void record.lease.renew(name, holder, lockMs).catch(() => false),
    lockMs / 3,
  );
  try {
    return await sendHeld(deps, message);
  } finally {
    clearInterval(renewing);
    await record.lease.release(name, holder);
  }
}

async function sendHeld(deps: WorkerDeps, { contact, message }: Message): Promise<'settled' | 'turned-away'> {
  const { desk, record, clock, api } = deps;
  const prepared = await desk.prepareSend(contact, message, await clock.now());
  if (prepared.outcome !== 'send') return 'settled';
  const { chatId, answer, about, perhapsRepeated, attempt } = prepared;
  try {
    const { messageId } = await say(api, record, chatId, answer, message);
    const sent = { chatMessage: messageId ?? 0, about, perhapsRepeated, answer };
    await desk.sent(contact, message, sent, await clock.now());
    return 'settled';
  } catch (error) {
    return settle(deps, { contact, message }, attempt, error);
  }
}

/** A refusal for good is recorded as failed; anything else as postponed, and thrown for the queue unless the server named a pause. */
async function settle(
  { desk, clock, pause }: WorkerDeps,
  { contact, message }: Message,
  attempt: string,
  error: unknown,
): Promise<'settled' | 'turned-away'> {
  const now = await clock.now();
  if (error instanceof GrammyError) {
    const { error_code: code } = error;
    if (code !== 429 && code < 500) {
      await desk.failed(contact, message, `${code}`, now);
      return 'settled';
    }
    // A server that breaks down may have done so after the message went.
    await desk.postponed(contact, message, code === 429 ? 'turned-away' : 'no-answer', attempt, now);
    if (code === 429 && pause.leftMs() > 0) return 'turned-away';
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
