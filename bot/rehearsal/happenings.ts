import { EventEmitter } from 'node:events';
import type { BenchMessage } from './bench-message.js';

/** One call of the Bot API, as it was answered. `errorCode` is null where the answer was yes, or there was none. */
export type ApiCall = {
  token: string;
  method: string;
  params: Record<string, unknown>;
  at: number;
  outcome: 'ok' | 'error' | 'lost';
  errorCode: number | null;
  description: string | null;
};

/** Something that people see in a chat. `at` is Unix milliseconds by the rehearsal's clock. */
export type ChatEvent =
  | {
      type: 'message' | 'edit';
      token: string;
      chatId: number;
      at: number;
      byBot: boolean;
      message: BenchMessage;
    }
  | { type: 'delete'; token: string; chatId: number; at: number; messageId: number }
  | {
      type: 'press';
      token: string;
      chatId: number;
      at: number;
      personId: number;
      text: string;
      messageId: number;
    }
  | {
      type: 'toast';
      token: string;
      chatId: number;
      at: number;
      personId: number;
      text: string;
      alert: boolean;
    }
  | { type: 'action'; token: string; chatId: number; at: number; action: string };

type Events = { call: [ApiCall]; chat: [ChatEvent]; change: [] };

/** What happens on the server, for listeners: API calls, chat events, and any change at all. */
export type Happenings = EventEmitter<Events>;

/** Makes the emitter. */
export function createHappenings(): Happenings {
  const happenings = new EventEmitter<Events>();
  happenings.setMaxListeners(0);
  return happenings;
}

/** What may be waited for is looked at after each change, until it is there; rejects at the deadline. */
export type WaitOptions = { timeoutMs?: number };

/**
 * Resolves with the first value that `look` finds, looking at once and after every change.
 * @param complain the sentence of the error when the deadline (default 10 s, machine time) passes
 */
export function whenSeen<T>(
  happenings: Happenings,
  look: () => T | null,
  options: WaitOptions,
  complain: () => string,
): Promise<T> {
  return new Promise((resolve, reject) => {
    const check = (): void => {
      const found = look();
      if (found === null) return;
      clearTimeout(timer);
      happenings.off('change', check);
      resolve(found);
    };
    const timeoutMs = options.timeoutMs ?? 10_000;
    const timer = setTimeout(() => {
      happenings.off('change', check);
      reject(new Error(`${complain()} (waited ${timeoutMs} ms)`));
    }, timeoutMs);
    happenings.on('change', check);
    check();
  });
}
