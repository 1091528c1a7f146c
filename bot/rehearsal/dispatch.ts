import type { IncomingMessage, ServerResponse } from 'node:http';
import type { ApiResponse } from 'grammy/types';
import { createBotState, type BotOptions, type BotState } from './bot-state.js';
import { ApiFault, internalError, methodNotFound, tooManyRequests, unauthorized } from './faults.js';
import { createFailurePlan, type Failure, type FailurePlan } from './failures.js';
import type { ApiCall, Happenings } from './happenings.js';
import { METHODS, named } from './methods/table.js';
import { readRequest } from './request.js';

/** The clock of a rehearsal: Unix milliseconds. */
export type Clock = () => number | Promise<number>;

/** The bots of a server, how their calls are answered, and what is under way. */
export type Dispatcher = {
  host: (options: BotOptions) => BotState;
  answer: (incoming: IncomingMessage, outgoing: ServerResponse) => Promise<void>;
  failures: FailurePlan;
  /** API calls that have no answer yet; a poll that waits for updates does not count. */
  inFlight: () => number;
  bots: () => BotState[];
};

type Parsed = { bot: BotState; method: string; params: Record<string, unknown>; filePath: string | null };
type Reply = { status: number; body: ApiResponse<unknown> | Uint8Array };

/** Makes a dispatcher without bots. */
export function createDispatcher(now: Clock, happenings: Happenings): Dispatcher {
  const bots = new Map<string, BotState>();
  const failures = createFailurePlan();
  let inFlight = 0;

  const route = (url: URL): Parsed => {
    const match = /^\/(file\/)?bot([^/]+)\/(.+)$/.exec(url.pathname);
    if (match === null) throw new ApiFault(404, 'Not Found');
    const [, file, token = '', rest = ''] = match;
    const bot = bots.get(token);
    if (bot === undefined) throw unauthorized();
    const filePath = file === undefined ? null : rest;
    return { bot, method: filePath === null ? rest : 'file', params: {}, filePath };
  };

  const perform = async (
    parsed: Parsed,
    incoming: IncomingMessage,
    url: URL,
    signal: AbortSignal,
  ): Promise<Reply> => {
    if (parsed.filePath !== null) return download(parsed.bot, parsed.filePath);
    const request = await readRequest(incoming, url);
    parsed.params = request.params;
    const name = named(parsed.method);
    if (name === null) throw methodNotFound();
    const call = { bot: parsed.bot, ...request, now: await now(), signal };
    return { status: 200, body: { ok: true, result: await METHODS[name](call) } };
  };

  const attempt = async (work: () => Promise<Reply>): Promise<Reply> => {
    try {
      return await work();
    } catch (error) {
      if (error instanceof ApiFault) return refusal(error);
      throw error;
    }
  };

  const log = async (parsed: Parsed, reply: Reply | null): Promise<void> => {
    const said = reply === null || reply.body instanceof Uint8Array || reply.body.ok ? null : reply.body;
    const call: ApiCall = {
      token: parsed.bot.token,
      method: named(parsed.method) ?? parsed.method,
      params: parsed.params,
      at: await now(),
      outcome: reply === null ? 'lost' : said === null ? 'ok' : 'error',
      errorCode: said?.error_code ?? null,
      description: said?.description ?? null,
    };
    happenings.emit('call', call);
  };

  const serve = async (
    parsed: Parsed,
    incoming: IncomingMessage,
    outgoing: ServerResponse,
    url: URL,
  ): Promise<void> => {
    const gone = new AbortController();
    const closed = new Promise<void>((resolve) => {
      outgoing.on('close', () => {
        gone.abort();
        resolve();
      });
    });
    const failure = failures.next(parsed.method);
    const work = () => attempt(() => perform(parsed, incoming, url, gone.signal));
    const effect = failure === null || failure.afterEffect === true ? await work() : null;
    const reply = failure === null ? effect : failing(failure);
    await log(parsed, failure?.kind === 'page' ? null : reply);
    if (reply !== null) return send(outgoing, reply);
    if (failure?.kind === 'drop') outgoing.destroy();
    await closed;
  };

  return {
    host: (options) => {
      if (bots.has(options.token)) throw new Error('a bot with this token is already there');
      const bot = createBotState(options, happenings);
      bots.set(options.token, bot);
      return bot;
    },
    answer: async (incoming, outgoing) => {
      const url = new URL(incoming.url ?? '/', 'http://localhost');
      const waits = url.pathname.toLowerCase().endsWith('/getupdates');
      inFlight += waits ? 0 : 1;
      try {
        await serve(route(url), incoming, outgoing, url);
      } catch (error) {
        if (outgoing.destroyed) return;
        send(outgoing, refusal(error instanceof ApiFault ? error : internalError()));
        if (!(error instanceof ApiFault)) throw error;
      } finally {
        inFlight -= waits ? 0 : 1;
        happenings.emit('change');
      }
    },
    failures,
    inFlight: () => inFlight,
    bots: () => [...bots.values()],
  };
}

/** What is answered in place of a result; null where nothing is. */
function failing(failure: Failure): Reply | null {
  switch (failure.kind) {
    case '429':
      return refusal(tooManyRequests(failure.retryAfter ?? 1));
    case '401':
      return refusal(unauthorized());
    case '500':
      return refusal(internalError());
    case 'page':
      return { status: 200, body: Buffer.from('<!doctype html><p>Please sign in to this network</p>') };
    case 'hang':
    case 'drop':
      return null;
  }
}

function refusal(fault: ApiFault): Reply {
  const { code, description, retryAfter } = fault;
  const parameters = retryAfter === undefined ? {} : { parameters: { retry_after: retryAfter } };
  return { status: code, body: { ok: false, error_code: code, description, ...parameters } };
}

function download(bot: BotState, path: string): Reply {
  const file = bot.files.byPath(path);
  if (file === null) throw new ApiFault(404, 'Not Found');
  return { status: 200, body: file.bytes };
}

function send(outgoing: ServerResponse, reply: Reply): void {
  if (outgoing.headersSent || outgoing.destroyed) return;
  const binary = reply.body instanceof Uint8Array;
  outgoing.writeHead(reply.status, {
    'content-type': binary ? 'application/octet-stream' : 'application/json',
  });
  outgoing.end(reply.body instanceof Uint8Array ? reply.body : JSON.stringify(reply.body));
}
