import type { ApiMethods } from 'grammy/types';
import { botAsUser, type BotState, type Writer } from '../bot-state.js';
import type { Upload } from '../multipart.js';

/** One call of a method, as a handler gets it. `now` is Unix milliseconds by the rehearsal's clock. */
export type Call = {
  bot: BotState;
  params: Record<string, unknown>;
  uploads: Map<string, Upload>;
  now: number;
  signal: AbortSignal;
};

type Result<M extends keyof ApiMethods> = ReturnType<ApiMethods[M]>;

/** A handler of one method; its result has the shape that `grammy/types` gives that method. */
export type Handler<M extends keyof ApiMethods> = (call: Call) => Result<M> | Promise<Result<M>>;

/** The bot of a call as a writer. */
export const writerOf = (call: Call): Writer => ({ from: botAsUser(call.bot), byBot: true, now: call.now });
