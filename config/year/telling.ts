import type { Person } from '../../bot/rehearsal/person.js';
import type { ShopRecord } from '../../src/record/types.js';
import { invitationOf } from '../../src/desk/people.js';
import { MECHANIC_CHATS } from './cast.js';
import { findButton } from '../demo/offered.js';
import type { ButtonPick } from '../demo/scenario/scene.js';
import type { Stage } from '../demo/stage.js';

/** What can be done in a chat; each waits until the shop is at rest again. */
export type Telling = {
  /** Gives the message's id in the chat. */
  say: (person: Person, text: string) => Promise<number>;
  /** Changes what was said. */
  edit: (person: Person, message: number, text: string) => Promise<void>;
  /** Presses the newest such button; false where there is none. */
  press: (person: Person, pick: ButtonPick) => Promise<boolean>;
  /** Has an invitation made for somebody; gives its link's secret. */
  link: (mechanic: Person, name: string) => Promise<string>;
  /** Opens the bot by a link. */
  open: (guest: Person, secret: string) => Promise<void>;
  /** Says of whoever opened a link whether it is the one meant; an error where nobody asks. */
  settleGuest: (mechanic: Person, secret: string, welcome: boolean) => Promise<void>;
  /** Invites somebody by name: they open the link and are welcomed. */
  invite: (mechanic: Person, name: string, guest: Person) => Promise<void>;
  /** What the button pressed last does. */
  lastPressed: () => unknown;
  said: () => number;
};

type On = Pick<Stage, 'driver'> & { record: Pick<ShopRecord, 'buttons'> };

/** A mechanic's message as the record names it. */
export const mechanicsMessage = ({ chatId }: Pick<Person, 'chatId'>, messageId: number): string =>
  `mechanic-${MECHANIC_CHATS.indexOf(chatId) + 1}-${messageId}`;

/** `meanwhile` is called while what was said or pressed is on its way. (Default: nothing) */
export function makeTelling({ driver, record }: On, meanwhile?: () => Promise<void>): Telling {
  let said = 0;
  let lastPressed: unknown = null;
  const settle = async (): Promise<void> => {
    await meanwhile?.();
    await driver.moveTo(driver.now());
  };
  const say: Telling['say'] = async (person, text) => {
    said += 1;
    const { messageId } = await person.say(text);
    await settle();
    return messageId;
  };
  const edit: Telling['edit'] = async (person, message, text) => {
    said += 1;
    await person.edit(message, text);
    await settle();
  };
  const press: Telling['press'] = async (person, pick) => {
    const button = await findButton(record, person, pick);
    if (button === null) return false;
    lastPressed = await record.buttons.get(button.data);
    await person.press(button.data, { message: button.messageId });
    await settle();
    return true;
  };
  const link: Telling['link'] = async (mechanic, name) => {
    await say(mechanic, `invite ${name}`);
    const shown = mechanic.messages().findLast(({ text }) => text.includes('?start='))?.text ?? '';
    const secret = /\?start=([\w-]+)/.exec(shown)?.[1];
    if (secret === undefined) throw new Error(`no link for ${name}, but: ${mechanic.last()?.text ?? ''}`);
    return secret;
  };
  const open: Telling['open'] = async (guest, secret) => {
    await guest.open(secret);
    await driver.moveTo(driver.now());
  };
  const settleGuest: Telling['settleGuest'] = async (mechanic, secret, welcome) => {
    const invitation = invitationOf(secret);
    if (!(await press(mechanic, { do: 'settle-guest', invitation, welcome })))
      throw new Error(`nobody asks whether a guest is the one meant, but: ${mechanic.last()?.text ?? ''}`);
  };
  const invite: Telling['invite'] = async (mechanic, name, guest) => {
    const secret = await link(mechanic, name);
    await open(guest, secret);
    await settleGuest(mechanic, secret, true);
  };
  return {
    say,
    edit,
    press,
    link,
    open,
    settleGuest,
    invite,
    lastPressed: () => lastPressed,
    said: () => said,
  };
}
