/** What people said, what they are called, how they can be reached, and what opens doors. */
const PRIVATE = new Set(
  [
    ...['text', 'caption', 'words', 'heard', 'said', 'question', 'query', 'draft', 'note', 'transcript'],
    ...[
      'name',
      'firstName',
      'lastName',
      'userName',
      'fullName',
      'title',
      'author',
      'signature',
      'supplier',
      'owner',
    ],
    ...['phone', 'phoneNumber', 'email', 'address', 'contact', 'location', 'vcard'],
    ...['token', 'botToken', 'password', 'secret', 'authorization', 'filePath', 'link', 'startPayload'],
    // Whole messages, as the chat's library hands them over.
    ...['update', 'message', 'editedMessage', 'callbackQuery', 'ctx', 'payload', 'rawBody', 'chat', 'from'],
  ].map(plainKey),
);

const REDACTED = '[redacted]';
/** Details are small; what is deeper is some library's object that came along. */
const DEEPEST = 6;

/** A bot's token by itself: its number, a colon and a secret (35 characters today). */
const TOKEN = /(?<!\w)\d{5,}(?::|%3A)[A-Za-z0-9_-]{30,}/gi;
/** A bot's token in an address, as `/bot<token>/` or `/file/bot<token>/`, however long its secret. */
const TOKEN_IN_ADDRESS = /\/bot\d+(?::|%3A)[A-Za-z0-9_-]+/gi;
/** The user and password of an address. */
const CREDENTIALS = /(\w+:\/\/)[^\s/@"]+@/g;

/** Cuts what looks like a bot's token, passwords in addresses, and the given secrets out of a text. */
export function withoutSecrets(text: string, secrets: readonly string[] = []): string {
  const known = secrets.reduce((rest, secret) => rest.replaceAll(secret, REDACTED), text);
  return known
    .replace(TOKEN_IN_ADDRESS, `/bot${REDACTED}`)
    .replace(CREDENTIALS, `$1${REDACTED}@`)
    .replace(TOKEN, REDACTED);
}

/** A copy of a log line's details in which people's words and data are redacted, at any depth, and errors described. */
export function withoutWords(details: Record<string, unknown>): Record<string, unknown> {
  return Object.fromEntries(Object.entries(details).map(([key, value]) => [key, kept(key, value, 0)]));
}

function kept(key: string, value: unknown, depth: number): unknown {
  if (value === null || value === undefined) return value;
  return PRIVATE.has(plainKey(key)) ? REDACTED : shown(value, depth);
}

function shown(value: unknown, depth: number): unknown {
  if (typeof value === 'function' || typeof value === 'symbol') return undefined;
  if (typeof value === 'bigint') return String(value);
  if (typeof value !== 'object' || value === null) return value;
  if (depth >= DEEPEST) return '[deep]';
  if (value instanceof Error) return describeError(value, depth);
  if (value instanceof Date) return value.toISOString();
  if (Array.isArray(value)) return value.map((one) => shown(one, depth + 1));
  const prototype: unknown = Object.getPrototypeOf(value);
  if (prototype !== Object.prototype && prototype !== null) return `[${value.constructor.name}]`;
  return Object.fromEntries(
    Object.entries(value).map(([name, inner]) => [name, kept(name, inner, depth + 1)]),
  );
}

/** What of an error helps to find the fault. The chat library's errors carry whole messages: these stay out. */
function describeError(error: Error, depth: number): Record<string, unknown> {
  const extra = error as Error & Record<string, unknown>;
  return {
    type: error.name,
    message: error.message,
    stack: error.stack,
    ...pick(extra, ['code', 'errno', 'syscall', 'method', 'error_code', 'description']),
    ...(error.cause instanceof Error ? { cause: shown(error.cause, depth + 1) } : {}),
    ...(extra['error'] instanceof Error ? { error: shown(extra['error'], depth + 1) } : {}),
  };
}

function pick(from: Record<string, unknown>, names: readonly string[]): Record<string, unknown> {
  return Object.fromEntries(
    names
      .filter((name) => ['string', 'number'].includes(typeof from[name]))
      .map((name) => [name, from[name]]),
  );
}

/** first_name, firstName and FIRST_NAME are the same to us. */
function plainKey(key: string): string {
  return key.replace(/[_-]/g, '').toLowerCase();
}
