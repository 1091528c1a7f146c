import type { Message } from 'grammy/types';
import type { Incoming } from '../src/desk/desk.js';
import type { Attachment } from '../src/job/events.js';

/** What a chat message says and bears, or null for kinds that can't be read (stickers, places, polls …). */
export function incomingFrom(message: Message, key: string, person: string): Incoming | null {
  const attachments = attachmentsOf(message);
  const text = message.text ?? message.caption;
  if (text === undefined && attachments.length === 0) return null;
  return {
    key,
    person,
    chatId: message.chat.id,
    messageId: message.message_id,
    text: text ?? '',
    at: (message.edit_date ?? message.date) * 1000,
    source: message.text === undefined ? 'caption' : 'typed',
    attachments,
    replyTo: message.reply_to_message?.message_id ?? null,
    edited: message.edit_date !== undefined,
    album: message.media_group_id ?? null,
    forwarded: message.forward_origin !== undefined,
  };
}

/** Pictures at their largest, voice notes, and pictures sent as files. */
function attachmentsOf({ photo, voice, audio, document }: Message): Attachment[] {
  const largest = photo?.at(-1);
  const files: (Attachment | null)[] = [
    largest ? { kind: 'photo', unique: largest.file_unique_id, handle: largest.file_id } : null,
    voice ? { kind: 'voice', unique: voice.file_unique_id, handle: voice.file_id } : null,
    audio ? { kind: 'voice', unique: audio.file_unique_id, handle: audio.file_id } : null,
    document
      ? {
          kind: document.mime_type?.startsWith('image/') === true ? 'photo' : 'document',
          unique: document.file_unique_id,
          handle: document.file_id,
        }
      : null,
  ];
  return files.filter((file) => file !== null);
}
