import type { MessageOut } from '../../../src/contact/state.js';

/** Every message that was to go went, or was dropped for a reason. */
export function neverSent(who: string, messages: readonly MessageOut[]): string[] {
  return messages
    .filter(({ status }) => status === 'intended')
    .map(({ id }) => `a message to ${who} never went: ${id}`);
}
