import type { Answer } from './answer.js';
import { plain } from './answer.js';

/** The one line somebody gets whom the shop doesn't know. */
export function strangerLine(): string {
  return 'This is a workshop’s own line, for people it has invited. If that should be you, please ask the workshop for a link.';
}

export function oneToOneOnly(): string {
  return 'I only talk to one person at a time, so I’ll leave this group. Please write to me directly.';
}

/** For the small window over a button; the chat allows 200 characters there (Bot API documentation). */
export function buttonTooOld(): string {
  return 'That button no longer works. Nothing was changed; just write what you need.';
}

export function cannotRead(): Answer {
  return plain('I can read text, pictures and voice notes, but not that. Please say it in words.');
}
