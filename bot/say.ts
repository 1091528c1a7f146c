import { createHash } from 'node:crypto';
import { setImmediate as nextTurn, setTimeout as sleep } from 'node:timers/promises';
import { b, fmt, FormattedString } from '@grammyjs/parse-mode';
import type { Api } from 'grammy';
import { GrammyError, InlineKeyboard, InputFile } from 'grammy';
import type { ShopRecord } from '../src/record/types.js';
import type { Answer } from '../src/wording/answer.js';

/** The most characters of one message, of a caption, and of pictures in one album (Bot API documentation). */
const TEXT_AT_MOST = 4096;
const CAPTION_AT_MOST = 1024;
const ALBUM_AT_MOST = 10;

/** How long the chat's server asked to be left alone, ms (Bot API documentation, ResponseParameters.retry_after); 0: it did not. */
export function askedToWaitMs(error: unknown): number {
  return error instanceof GrammyError ? (error.parameters.retry_after ?? 0) * 1_000 : 0;
}

/** The longest pause that is waited out with a message half said. */
const HALF_SAID_AT_MOST_MS = 60_000;

/** What follows a first piece that went. Turned away, it waits here: said anew, the first would come twice. */
async function following<T>(send: () => Promise<T>): Promise<T> {
  for (;;) {
    try {
      return await send();
    } catch (error) {
      const waitMs = askedToWaitMs(error);
      if (waitMs === 0 || waitMs > HALF_SAID_AT_MOST_MS) throw error;
      await sleep(waitMs);
    }
  }
}

export type Said = {
  /** The message with the text and the buttons; null where there was nothing to say. */
  messageId: number | null;
};

/**
 * Says an answer in a chat: text with its emphasis as entities, buttons under short tokens, then pictures and
 * voice notes. `key` is the update or message answered: the same answer said again has the same tokens.
 */
export async function say(
  api: Api,
  record: ShopRecord,
  chatId: number,
  answer: Answer,
  key: string,
  replyTo?: number,
): Promise<Said> {
  const buttons = keyboardFor(answer, key);
  // Kept while the message is under way: nobody is as quick, and a crash in between has it all said again.
  const sending = sendText(api, chatId, answer, buttons?.keyboard ?? null, replyTo);
  const kept = buttons === null ? null : nextTurn().then(() => record.buttons.putAll(buttons.actions));
  const [messageId] = await Promise.all([sending, kept]);
  if (messageId !== null && answer.thread) await record.chatMessages.put(chatId, messageId, answer.thread);
  await showPhotos(api, record, chatId, answer.photos ?? []);
  for (const hash of answer.voices ?? [])
    await following(() => api.sendVoice(chatId, new InputFile(record.files.path(hash))));
  return { messageId };
}

/** Sends the text in as many pieces as it takes; gives the last one's id, which has the buttons. */
async function sendText(
  api: Api,
  chatId: number,
  answer: Answer,
  keyboard: InlineKeyboard | null,
  replyTo: number | undefined,
): Promise<number | null> {
  const reply =
    replyTo === undefined
      ? {}
      : { reply_parameters: { message_id: replyTo, allow_sending_without_reply: true } };
  let messageId: number | null = null;
  const pieces = split(formatted(answer));
  for (const [index, piece] of pieces.entries()) {
    const last = index === pieces.length - 1;
    const send = () =>
      api.sendMessage(chatId, piece.text, {
        entities: piece.entities,
        ...(index === 0 ? reply : {}),
        ...(last && keyboard ? { reply_markup: keyboard } : {}),
      });
    messageId = (await (index === 0 ? send() : following(send))).message_id;
  }
  return messageId;
}

function formatted(answer: Answer): FormattedString {
  return answer.text.reduce<FormattedString>(
    (text, passage) => fmt`${text}${typeof passage === 'string' ? passage : fmt`${b}${passage.bold}${b}`}`,
    new FormattedString(''),
  );
}

/** Long texts go in pieces, cut at a line's end where one is near. */
function split(text: FormattedString): FormattedString[] {
  const pieces: FormattedString[] = [];
  let rest = text;
  while (rest.text.length > TEXT_AT_MOST) {
    const line = rest.text.lastIndexOf('\n', TEXT_AT_MOST);
    const at = line > TEXT_AT_MOST / 2 ? line : TEXT_AT_MOST;
    pieces.push(rest.slice(0, at));
    rest = rest.slice(at);
  }
  return rest.text.trim() === '' ? pieces : [...pieces, rest];
}

type Keyboard = { keyboard: InlineKeyboard; actions: ReadonlyMap<string, unknown> };

function keyboardFor(answer: Answer, key: string): Keyboard | null {
  const rows = answer.buttons.filter((row) => row.length > 0);
  if (rows.length === 0) return null;
  const keyboard = new InlineKeyboard();
  const actions = new Map<string, unknown>();
  for (const [line, row] of rows.entries()) {
    for (const [place, button] of row.entries()) {
      const token = tokenFor(key, line, place);
      actions.set(token, button.action);
      keyboard.text(button.label, token);
    }
    keyboard.row();
  }
  return { keyboard, actions };
}

/** A button's token can't be guessed from another's, and is the same when the same answer is said again. */
function tokenFor(key: string, line: number, place: number): string {
  return createHash('sha256').update(`${key}/${line}/${place}`).digest('base64url').slice(0, 22);
}

async function showPhotos(
  api: Api,
  record: ShopRecord,
  chatId: number,
  photos: NonNullable<Answer['photos']>,
): Promise<void> {
  for (let from = 0; from < photos.length; from += ALBUM_AT_MOST) {
    const some = photos.slice(from, from + ALBUM_AT_MOST);
    const media = some.map(({ hash, caption }) => ({
      type: 'photo' as const,
      media: new InputFile(record.files.path(hash)),
      caption: caption.slice(0, CAPTION_AT_MOST),
    }));
    const [only] = media;
    await following<unknown>(() =>
      only && media.length === 1
        ? api.sendPhoto(chatId, only.media, { caption: only.caption })
        : api.sendMediaGroup(chatId, media),
    );
  }
}
