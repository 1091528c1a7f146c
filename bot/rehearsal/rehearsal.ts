import { createDispatcher, type Clock } from './dispatch.js';
import type { Failure } from './failures.js';
import { createHappenings, whenSeen, type ApiCall, type ChatEvent, type WaitOptions } from './happenings.js';
import { createPerson, type Person, type PersonOptions } from './person.js';
import { listen } from './server.js';
import type { UpdateBody } from './bench-message.js';
import { notify, type BotState } from './bot-state.js';

/** How a rehearsal starts. Everything random is given or counted, so that a run repeats itself. */
export type RehearsalOptions = {
  /** Unix milliseconds of the shared rehearsal clock. */
  now: Clock;
  /** The bot's token, `<id>:<secret>`. Default a made-up one. */
  token?: string;
  /** The bot's user name. Default `benchhand_rehearsal_bot`. */
  username?: string;
  /** Default any free port. */
  port?: number;
  /** Loopback only. Default 127.0.0.1. */
  host?: string;
  /** Number of the first update. Default 1. */
  firstUpdateId?: number;
};

/** One bot on the rehearsal server, from the side of the people who talk to it. */
export type HostedBot = {
  token: string;
  username: string;
  /** A person of this bot; the same id gives the same chat. Ids run from 1001 where none is given. */
  person: (options: PersonOptions) => Person;
  /** Resolves once a poller waits for updates: the bot is up. */
  polled: (options?: WaitOptions) => Promise<void>;
  /** Queues an update again, confirmed or not; false where it never was. */
  redeliver: (updateId: number) => boolean;
  /** Queues an update of any shape, well formed or not; null where the bot did not ask for its kind. */
  inject: (body: UpdateBody) => Promise<number | null>;
  /** How many updates there were so far. */
  readonly updateCount: number;
};

/** The running stand-in of the Bot API, with its driver. */
export type Rehearsal = HostedBot & {
  /** The Bot API root (grammY: `client.apiRoot`). */
  url: string;
  /** Another bot on the same server. */
  host: (bot: { token: string; username: string; firstUpdateId?: number }) => HostedBot;
  /**
   * Resolves when all updates of all bots are confirmed (the poller came back with a later offset) and no API
   * call is without its answer. A call that hangs is not quiet until its caller gives up.
   */
  quiet: (options?: WaitOptions) => Promise<void>;
  /** Listens to API calls (once answered) or to what people see; gives back how to stop listening. */
  on: {
    (event: 'call', listener: (call: ApiCall) => void): () => void;
    (event: 'chat', listener: (event: ChatEvent) => void): () => void;
  };
  /** Makes calls fail; gives back how to call off those still to come. */
  fail: (failure: Failure) => () => void;
  /** Cuts every connection while true. */
  down: (isDown: boolean) => void;
  stop: () => Promise<void>;
};

const DEFAULTS = { token: '700000001:rehearsal-token-never-real', username: 'benchhand_rehearsal_bot' };

/** Starts the stand-in of the Bot API's HTTP interface. */
export async function startRehearsal(options: RehearsalOptions): Promise<Rehearsal> {
  const happenings = createHappenings();
  const dispatcher = createDispatcher(options.now, happenings);
  const server = await listen(
    { host: options.host ?? '127.0.0.1', port: options.port ?? 0 },
    dispatcher.answer,
  );
  const host: Rehearsal['host'] = ({ token, username, firstUpdateId }) =>
    hosted(
      dispatcher.host({ token, username, name: 'Benchhand', firstUpdateId: firstUpdateId ?? 1 }),
      options.now,
    );
  const first = host({ ...DEFAULTS, ...options });
  const waiting = (): string =>
    `not quiet: ${dispatcher.inFlight()} calls under way, ` +
    `${dispatcher.bots().reduce((sum, bot) => sum + bot.updates.pending(), 0)} updates not confirmed`;
  const isQuiet = (): boolean =>
    dispatcher.inFlight() === 0 && dispatcher.bots().every((bot) => bot.updates.pending() === 0);
  const on: Rehearsal['on'] = (event: 'call' | 'chat', listener: (happening: never) => void) => {
    const heard = listener as (happening: ApiCall | ChatEvent) => void;
    happenings.on(event, heard);
    return () => void happenings.off(event, heard);
  };
  return Object.assign(first, {
    url: server.url,
    host,
    quiet: async (wait: WaitOptions = {}) => {
      await whenSeen(happenings, () => isQuiet() || null, wait, waiting);
    },
    on,
    fail: dispatcher.failures.add,
    down: server.down,
    stop: server.stop,
  });
}

function hosted(bot: BotState, now: Clock): HostedBot {
  let lastPersonId = 1000;
  return {
    token: bot.token,
    username: bot.me.username,
    person: (options) => {
      if (options.id === undefined) lastPersonId += 1;
      return createPerson(bot, now, options.id ?? lastPersonId, options);
    },
    polled: async (wait = {}) => {
      const complain = () => `nobody polls for ${bot.me.username}`;
      await whenSeen(bot.happenings, () => bot.updates.polled() || null, wait, complain);
    },
    redeliver: bot.updates.redeliver,
    inject: async (body) => notify(bot, body, await now()),
    get updateCount() {
      return bot.updates.count();
    },
  };
}
