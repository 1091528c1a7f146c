import { z } from 'zod';
import { contactEvent } from '../contact/events.js';
import { attachmentSchema } from '../job/events.js';
import type { Answer } from '../wording/answer.js';
import { heardNothing, heardOnlyTo, listening, withHeard } from '../wording/bench.js';
import type { Incoming, Transcribed } from './desk.js';
import type { Heard } from './heard.js';
import { finishOnce } from './once.js';
import type { Workplace } from './workplace.js';

const incomingSchema = z.object({
  key: z.string(),
  person: z.string(),
  chatId: z.number(),
  messageId: z.number(),
  text: z.string(),
  at: z.number(),
  source: z.enum(['typed', 'spoken', 'caption']),
  attachments: z.array(attachmentSchema),
  replyTo: z.number().nullable(),
  edited: z.boolean(),
  album: z.string().nullable(),
  forwarded: z.boolean(),
});

export function isVoiceNote({ text, attachments }: Incoming): boolean {
  return text.trim() === '' && attachments.some(({ kind }) => kind === 'voice');
}

/** Keeps a voice note and has it listened to; its words come back through `transcribed`. */
export async function listenTo(place: Workplace, message: Incoming): Promise<Answer> {
  return finishOnce(place, message.key, async () => {
    const { key, person, at, chatId } = message;
    const voice = message.attachments.find(({ kind }) => kind === 'voice');
    if (!voice) throw new Error('only a voice note is listened to');
    await place.deps.record.inbox.begin(heardKey(key), message);
    const { unique, handle } = voice;
    const effects = [
      { id: `transcribe-${key}`, queue: 'transcribe' as const, data: { key, unique, handle, chat: chatId } },
    ];
    await place.store.toContact(person, { commandId: `${key}-voice`, at, by: person, effects }, () => [
      contactEvent('voice-received', { unique, handle }),
    ]);
    return listening();
  });
}

/** A voice note's words, answered like any message from the same person; null: nothing could be made out. */
export async function transcribed(
  place: Workplace,
  key: string,
  heard: Heard | null,
  answerTo: (message: Incoming) => Promise<Answer>,
): Promise<Transcribed | null> {
  const found = await place.deps.record.inbox.find(heardKey(key));
  const parsed = incomingSchema.safeParse(found.state === 'begun' ? found.reading : null);
  if (!parsed.success) return null;
  const { text = '', doubts = [], upTo } = heard ?? {};
  const spoken: Incoming = { ...parsed.data, key: `${key}v`, text, source: 'spoken', doubts };
  const answer = await answerTo(spoken);
  const { chatId, messageId } = spoken;
  const whole = text === '' ? heardNothing(answer) : withHeard(text, answer);
  return { chatId, replyTo: messageId, answer: upTo === undefined ? whole : heardOnlyTo(upTo, whole) };
}

const heardKey = (key: string): string => `${key}-heard`;
