import type { Redis } from 'ioredis';
import { z } from 'zod';
import type { Keys } from './keys.js';
import { assertStreamId } from './keys.js';
import { asBegun } from './inbox.js';
import { COMMAND_DAYS, DAY_MS, INBOX_DAYS } from './lifetimes.js';
import { defineScript } from './scripts.js';
import type { Append, Appended, NewEvent, Recorded } from './types.js';

/** What `append.lua` answers with. */
export const AppendCode = { appended: 1, seen: 2, conflict: 3, malformed: -1 } as const;

const milliseconds = z.number().int().nonnegative();
const appendSchema = z.object({
  stream: z.string(),
  expectedVersion: z.number().int().nonnegative(),
  commandId: z.string().min(1).max(512),
  events: z.array(
    z.object({ type: z.string().min(1), schema: z.number().int().positive(), data: z.unknown() }),
  ),
  at: milliseconds,
  by: z.string().min(1),
  message: z.string().min(1).optional(),
  effects: z
    .array(
      z.object({
        id: z.string().min(1).max(512),
        queue: z.enum(['send', 'fetch', 'transcribe', 'wake']),
        data: z.record(z.string(), z.union([z.string(), z.number(), z.boolean()])),
      }),
    )
    .optional(),
  texts: z.record(z.string().min(1), z.string()).optional(),
  dueAt: milliseconds.nullable().optional(),
  begun: z.object({ key: z.string().min(1), reading: z.unknown() }).optional(),
});

/** The atomic append. Throws an Error that names the field when the append is malformed; writes nothing then. */
export function makeAppend(redis: Redis, keys: Keys): (append: Append) => Promise<Appended> {
  const script = defineScript(redis, 'append', 8);
  return async (append) => {
    check(append);
    const events = place(append);
    const reply = await script(appendKeys(keys, append), appendArguments(append, events));
    return translate(reply, append, events);
  };
}

/** Gives the events their ids and versions, on the supposition that the append succeeds. */
export function place(append: Omit<Append, 'effects' | 'texts' | 'dueAt' | 'begun'>): Recorded[] {
  const { stream, expectedVersion, commandId, at, by, message } = append;
  return append.events.map((event, index) => {
    const version = expectedVersion + index + 1;
    return {
      id: `${stream}.${version}`,
      version,
      type: event.type,
      schema: event.schema,
      data: event.data,
      at,
      by,
      ...(message === undefined ? {} : { message }),
      command: commandId,
    };
  });
}

/** All keys that the script touches for an append: they must lie in one slot. */
export function appendKeys(keys: Keys, { stream, commandId, begun }: Append): string[] {
  return [
    keys.events(stream),
    keys.texts(stream),
    keys.command(stream, commandId),
    keys.streams,
    keys.outbox,
    keys.effectIds,
    keys.due,
    keys.inbox(begun?.key ?? ''),
  ];
}

/** An event's body as it stands in the stream: the entry's id holds its version and, with the stream, its id. */
export function encodeEvent({ version: _version, id: _id, ...body }: Recorded): string {
  return JSON.stringify(body);
}

/** The event of a stream's entry. */
export function decodeEvent(
  stream: string,
  [entryId, fields]: [string, string[]],
  upcast: (event: NewEvent) => NewEvent,
): Recorded {
  const version = Number(entryId.split('-')[0]);
  const body = JSON.parse(fields[1] ?? 'null') as Omit<Recorded, 'version' | 'id'>;
  const { type, schema, data } = upcast({ type: body.type, schema: body.schema, data: body.data });
  return { id: `${stream}.${version}`, version, ...body, type, schema, data };
}

function check(append: Append): void {
  const parsed = appendSchema.safeParse(append);
  if (!parsed.success) throw new Error(`Malformed append: ${z.prettifyError(parsed.error)}`);
  assertStreamId(append.stream);
  for (const { data, type } of append.events) {
    if (data === undefined) throw new Error(`Malformed append: ${type} has no data`);
  }
}

function appendArguments(append: Append, events: readonly Recorded[]): (string | number)[] {
  const texts = Object.entries(append.texts ?? {});
  const effects = append.effects ?? [];
  return [
    append.stream,
    append.expectedVersion,
    COMMAND_DAYS * DAY_MS,
    append.dueAt === undefined ? 'leave' : (append.dueAt ?? 'none'),
    append.begun === undefined ? '' : asBegun(append.begun.reading),
    INBOX_DAYS * DAY_MS,
    events.length,
    ...events.map(encodeEvent),
    texts.length,
    ...texts.flat(),
    effects.length,
    ...effects.flatMap((effect) => [effect.id, JSON.stringify(effect)]),
  ];
}

function translate(reply: unknown, { stream }: Append, events: Recorded[]): Appended {
  const [code, version] = reply as [number, number];
  switch (code as (typeof AppendCode)[keyof typeof AppendCode]) {
    case AppendCode.appended:
      return { outcome: 'appended', version, events };
    case AppendCode.seen:
      return { outcome: 'seen', version };
    case AppendCode.conflict:
      return { outcome: 'conflict', version };
    case AppendCode.malformed:
      throw new Error(`append.lua called its arguments malformed, for stream ${stream}`);
  }
}
