import type { ChatSeat } from '../../bot/rehearsal/chat-seat.js';
import type { ShopRecord } from '../../src/record/types.js';
import type { ButtonPick } from './scenario/scene.js';

export type Offered = { messageId: number; data: string; label: string };

/** How far back in a chat people look for a button. */
const MESSAGES_LOOKED_AT = 60;

/** The newest button in a chat that does what is picked, or null. Buttons are picked by what they do, whatever they are called. */
export async function findButton(
  record: Pick<ShopRecord, 'buttons'>,
  seat: ChatSeat,
  pick: ButtonPick,
): Promise<Offered | null> {
  const messages = seat.messages().slice(-MESSAGES_LOOKED_AT).reverse();
  for (const { messageId, buttons } of messages) {
    for (const { data, text } of buttons.flat()) {
      if (data !== null && does(await record.buttons.get(data), pick))
        return { messageId, data, label: text };
    }
  }
  return null;
}

/** Whether an action has all that is picked, at whatever depth. */
function does(action: unknown, pick: unknown): boolean {
  if (typeof pick !== 'object' || pick === null) return action === pick;
  if (typeof action !== 'object' || action === null) return false;
  return Object.entries(pick).every(([name, value]) =>
    does((action as Record<string, unknown>)[name], value),
  );
}

/** The labels of the buttons in sight, for whoever looks for one that isn't there. */
export function labelsInSight(seat: ChatSeat): string {
  const labels = seat
    .messages()
    .slice(-MESSAGES_LOOKED_AT)
    .flatMap(({ buttons }) => buttons.flat().map(({ text }) => text));
  return labels.slice(-12).join(', ') || 'none';
}
