import type { Seen } from '../../bot/rehearsal/seen.js';

/** A message as a chat shows it, written at an instant. */
export const message = (at: string, text: string, by: Seen['by'] = 'bot'): Seen => ({
  ...{
    messageId: 1,
    by,
    from: { id: 1, is_bot: by === 'bot', first_name: 'B' },
    kind: 'text',
    text,
    buttons: [],
  },
  ...{ bytes: null, fileName: null, edits: [], replyTo: null, mediaGroupId: null, raw: {} as Seen['raw'] },
  date: Date.parse(at) / 1000,
});
