import type { MessageEntity } from 'grammy/types';
import { z } from 'zod';
import { badRequest } from './faults.js';

const PLAIN = [
  'mention',
  'hashtag',
  'cashtag',
  'bot_command',
  'url',
  'email',
  'phone_number',
  'bold',
  'italic',
  'underline',
  'strikethrough',
  'spoiler',
  'blockquote',
  'expandable_blockquote',
  'code',
] as const;

const span = { offset: z.number().int().min(0), length: z.number().int().min(1) };

/** The kinds of entity that may be sent. Source: Bot API documentation, MessageEntity. */
export const entitySchema = z.union([
  z.object({ type: z.enum(PLAIN), ...span }),
  z
    .object({ type: z.literal('pre'), language: z.string().optional(), ...span })
    .transform(({ language, ...rest }) => (language === undefined ? rest : { ...rest, language })),
  z.object({ type: z.literal('text_link'), url: z.string().min(1), ...span }),
]);

const PATTERNS: [(typeof PLAIN)[number], RegExp][] = [
  ['bot_command', /(?<![\w/])\/[A-Za-z0-9_]{1,32}(?:@\w+)?/g],
  ['url', /https?:\/\/\S+/g],
  ['mention', /(?<!\w)@\w{4,32}/g],
  ['hashtag', /(?<!\w)#\w+/g],
];

/** The entities that a chat finds by itself in what a person writes; offsets in UTF-16 code units. */
export function findEntities(text: string): MessageEntity[] {
  const found = PATTERNS.flatMap(([type, pattern]) =>
    [...text.matchAll(pattern)].map((match) => ({ type, offset: match.index, length: match[0].length })),
  );
  const outside = found.filter(
    (entity) => !found.some((other) => other !== entity && contains(other, entity)),
  );
  return outside.sort((one, other) => one.offset - other.offset);
}

/**
 * Checks the entities of a message: inside the text, not through the middle of a UTF-16 pair, and nested or apart.
 * Source: Bot API documentation, MessageEntity and Formatting options. The public service silently cuts
 * entities that overlap; here they are an error, since our own code made them.
 */
export function checkEntities(text: string, entities: readonly MessageEntity[]): void {
  for (const { offset, length } of entities) {
    if (offset + length > text.length) throw badRequest('entity ends beyond the end of the text');
    if (splitsPair(text, offset))
      throw badRequest(`entity begins in a middle of a UTF-16 symbol at ${offset}`);
    if (splitsPair(text, offset + length))
      throw badRequest(`entity ends in a middle of a UTF-16 symbol at ${offset + length}`);
  }
  const crossing = entities.some((one) =>
    entities.some((other) => overlap(one, other) && !contains(one, other) && !contains(other, one)),
  );
  if (crossing) throw badRequest('entities cross each other');
}

type Span = { offset: number; length: number };

const overlap = (one: Span, other: Span): boolean =>
  one.offset < other.offset + other.length && other.offset < one.offset + one.length;

const contains = (outer: Span, inner: Span): boolean =>
  outer.offset <= inner.offset && outer.offset + outer.length >= inner.offset + inner.length;

function splitsPair(text: string, at: number): boolean {
  const before = text.charCodeAt(at - 1);
  const after = text.charCodeAt(at);
  return before >= 0xd800 && before < 0xdc00 && after >= 0xdc00 && after < 0xe000;
}
