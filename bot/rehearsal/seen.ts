import type { User } from 'grammy/types';
import type { Edit, StoredMessage } from './bench-message.js';
import type { FileStore } from './files.js';

/** A button as a person sees it. `data` is null for one that opens a link or copies a text. */
export type SeenButton = { text: string; data: string | null; url: string | null };

/** A message as a person sees it in the chat. `date` and those of edits are Unix seconds. */
export type Seen = {
  messageId: number;
  by: 'bot' | 'person';
  from: User;
  date: number;
  kind: 'text' | 'photo' | 'voice' | 'document' | 'sticker' | 'service';
  /** The text, or the caption; empty where there is neither. */
  text: string;
  buttons: SeenButton[][];
  /** The file's content, where the message has one. */
  bytes: Uint8Array | null;
  fileName: string | null;
  /** Earlier forms of a message that was edited, oldest first. */
  edits: Edit[];
  replyTo: number | null;
  mediaGroupId: string | null;
  /** The Bot API's message, for whatever is not above. */
  raw: StoredMessage['message'];
};

/** Shows a stored message as a person sees it. */
export function seen(stored: StoredMessage, files: FileStore): Seen {
  const { message, byBot, edits } = stored;
  const fileId =
    message.photo?.at(-1)?.file_id ??
    message.voice?.file_id ??
    message.document?.file_id ??
    message.sticker?.file_id;
  return {
    messageId: message.message_id,
    by: byBot ? 'bot' : 'person',
    from: message.from,
    date: message.date,
    kind: kindOf(message),
    text: message.text ?? message.caption ?? '',
    buttons: (message.reply_markup?.inline_keyboard ?? []).map((row) =>
      row.map((button) => ({
        text: button.text,
        data: 'callback_data' in button ? button.callback_data : null,
        url: 'url' in button ? button.url : null,
      })),
    ),
    bytes: fileId === undefined ? null : (files.byId(fileId)?.bytes ?? null),
    fileName: message.document?.file_name ?? null,
    edits: [...edits],
    replyTo: message.reply_to_message?.message_id ?? null,
    mediaGroupId: message.media_group_id ?? null,
    raw: message,
  };
}

function kindOf(message: StoredMessage['message']): Seen['kind'] {
  if (message.text !== undefined) return 'text';
  if (message.photo !== undefined) return 'photo';
  if (message.voice !== undefined) return 'voice';
  if (message.document !== undefined) return 'document';
  if (message.sticker !== undefined) return 'sticker';
  return 'service';
}
