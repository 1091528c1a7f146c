import { join } from 'node:path';
import { z } from 'zod';
import {
  addressSetting,
  chatIdsSetting,
  countSetting,
  keySetting,
  pathSetting,
  REDIS_SCHEMES,
  switchSetting,
  tokenSetting,
  WEB_SCHEMES,
} from './setting-kinds.js';

/** Long polling and sending go to the public Bot API unless told otherwise. */
const PUBLIC_BOT_API = 'https://api.telegram.org';

const LOG_LEVELS = ['trace', 'debug', 'info', 'warn', 'error', 'fatal', 'silent'] as const;

/** Every setting of the environment, its kind and its default. */
const schema = z.object({
  /** The bot's token, from whoever runs the chat service. */
  BOT_TOKEN: tokenSetting,
  /** Another Bot API server, without a slash at the end. */
  BOT_API_ROOT: addressSetting(WEB_SCHEMES).default(PUBLIC_BOT_API),
  /** A Redis to use. Without it, a private one is started under DATA_DIR. */
  REDIS_URL: addressSetting(REDIS_SCHEMES).optional(),
  /** The chat ids of those who are mechanics from the start. */
  MECHANIC_IDS: chatIdsSetting.default([]),
  /** The shop's settings, a YAML file. */
  SHOP_FILE: pathSetting.optional(),
  /** Where photos and voice notes are kept; shared by all hosts that run workers. (Default: `files` in DATA_DIR) */
  FILES_DIR: pathSetting.optional(),
  /** Where the private Redis keeps its data. */
  DATA_DIR: pathSetting.default('./data'),
  /** Where the daily back-ups are kept. (Default: `backups` in DATA_DIR; in a rehearsal none are kept) */
  BACKUP_DIR: pathSetting.optional(),
  /** The shop's key in Redis: several shops can share one. */
  SHOP_KEY: keySetting.default('shop'),
  LOG_LEVEL: z.enum(LOG_LEVELS, { error: `is not one of ${LOG_LEVELS.join(', ')}` }).default('info'),
  /** A command line that recognises speech: it is given a sound file's path, and prints what it heard. */
  SPEECH_COMMAND: z.string().optional(),
  /** An HTTP endpoint that recognises speech. */
  SPEECH_URL: addressSetting(WEB_SCHEMES).optional(),
  /** For demo and tests: the shop's time comes from Redis, and is moved on by hand. */
  REHEARSAL_CLOCK: switchSetting.default(false),
  /** How many effects each worker process has in hand at once. */
  WORKER_CONCURRENCY: countSetting(1, 100).default(10),
  /** After how many seconds the work of a worker that died is taken up by another (twice that at most); half of it for the chats. */
  WORKER_LOCK_SECONDS: countSetting(1, 600).default(30),
  /** After how many seconds a call to the chat's server that has no answer is given up; updates are waited for half as long. */
  CHAT_TIMEOUT_SECONDS: countSetting(2, 600).default(60),
});

/** Commands that never talk to the chat do without a token. */
const schemaWithoutToken = schema.extend({ BOT_TOKEN: tokenSetting.default('') });

type Values = z.output<typeof schema>;

const EXAMPLES: Readonly<Record<keyof Values, string>> = {
  BOT_TOKEN: '123456789:the-secret-part-of-your-token',
  BOT_API_ROOT: PUBLIC_BOT_API,
  REDIS_URL: 'redis://localhost:6379',
  MECHANIC_IDS: '123456789,987654321',
  SHOP_FILE: './shop.yaml',
  FILES_DIR: './data/files',
  DATA_DIR: './data',
  BACKUP_DIR: './data/backups',
  SHOP_KEY: 'shop',
  LOG_LEVEL: 'info',
  SPEECH_COMMAND: '/usr/local/bin/recognise --language en',
  SPEECH_URL: 'http://localhost:9000/recognise',
  REHEARSAL_CLOCK: 'true',
  WORKER_CONCURRENCY: '10',
  WORKER_LOCK_SECONDS: '30',
  CHAT_TIMEOUT_SECONDS: '60',
};

export type Settings = {
  /** Empty where a command does without. */
  readonly botToken: string;
  readonly botApiRoot: string;
  readonly redisUrl: string | null;
  readonly mechanicIds: readonly number[];
  readonly shopFile: string | null;
  readonly filesDir: string;
  readonly dataDir: string;
  /** Null where no back-ups are kept. */
  readonly backUpDir: string | null;
  readonly shopKey: string;
  readonly logLevel: (typeof LOG_LEVELS)[number];
  readonly speech: { readonly command: string } | { readonly url: string } | null;
  readonly rehearsalClock: boolean;
  readonly workerConcurrency: number;
  readonly workerLockMs: number;
  readonly chatTimeoutSeconds: number;
};

export type SettingsReading =
  | { readonly ok: true; readonly settings: Settings }
  | { readonly ok: false; readonly problems: readonly string[] };

export type SettingsNeeds = {
  /** Commands that never talk to the chat do without a token. (Default: true) */
  readonly token?: boolean;
};

/**
 * Reads the settings from the environment. An empty value counts as none. Each problem is a line that names the setting,
 * what is wrong and an example; the values themselves stay out of it, since they may be secret.
 */
export function readSettings(
  env: Readonly<Record<string, string | undefined>>,
  { token = true }: SettingsNeeds = {},
): SettingsReading {
  const given = Object.fromEntries(Object.keys(EXAMPLES).map((name) => [name, trimmed(env[name])]));
  const result = (token ? schema : schemaWithoutToken).safeParse(given);
  const problems = result.success ? conflicts(result.data) : result.error.issues.map(problemOf);
  if (!result.success || problems.length > 0) return { ok: false, problems };
  return { ok: true, settings: settingsFrom(result.data) };
}

function settingsFrom(values: Values): Settings {
  const { SPEECH_COMMAND: command, SPEECH_URL: url } = values;
  return {
    botToken: values.BOT_TOKEN,
    botApiRoot: values.BOT_API_ROOT,
    redisUrl: values.REDIS_URL ?? null,
    mechanicIds: values.MECHANIC_IDS,
    shopFile: values.SHOP_FILE ?? null,
    filesDir: values.FILES_DIR ?? join(values.DATA_DIR, 'files'),
    dataDir: values.DATA_DIR,
    backUpDir: values.BACKUP_DIR ?? (values.REHEARSAL_CLOCK ? null : join(values.DATA_DIR, 'backups')),
    shopKey: values.SHOP_KEY,
    logLevel: values.LOG_LEVEL,
    speech: command !== undefined ? { command } : url !== undefined ? { url } : null,
    rehearsalClock: values.REHEARSAL_CLOCK,
    workerConcurrency: values.WORKER_CONCURRENCY,
    workerLockMs: values.WORKER_LOCK_SECONDS * 1000,
    chatTimeoutSeconds: values.CHAT_TIMEOUT_SECONDS,
  };
}

/** Settings that are right by themselves and wrong together. */
function conflicts(values: Values): string[] {
  const problems: string[] = [];
  if (values.SPEECH_COMMAND !== undefined && values.SPEECH_URL !== undefined) {
    problems.push(
      `SPEECH_URL is set beside SPEECH_COMMAND: keep one of the two; for example SPEECH_URL=${EXAMPLES.SPEECH_URL}`,
    );
  }
  if (values.REHEARSAL_CLOCK && !isLoopback(values.BOT_API_ROOT)) {
    problems.push(
      'REHEARSAL_CLOCK is only for a rehearsal against a chat server on this machine; for example BOT_API_ROOT=http://127.0.0.1:8081',
    );
  }
  return problems;
}

function problemOf(issue: z.core.$ZodIssue): string {
  const name = issue.path[0] as keyof Values;
  return `${name} ${issue.message}; for example ${name}=${EXAMPLES[name]}`;
}

function trimmed(value: string | undefined): string | undefined {
  const text = value?.trim();
  return text === '' ? undefined : text;
}

/** Whether an address is on this machine (RFC 6761 for the name, RFC 1122 and 4291 for the numbers). */
export function isLoopback(address: string): boolean {
  if (!URL.canParse(address)) return false;
  const { hostname } = new URL(address);
  return hostname === 'localhost' || hostname === '[::1]' || /^127(\.\d{1,3}){3}$/.test(hostname);
}
