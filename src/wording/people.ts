import type { ShopRefusal } from '../shop/decide.js';
import type { Role } from '../shop/events.js';
import type { Answer, Button } from './answer.js';
import { plain } from './answer.js';
import { clipped, message } from './lines.js';

type Called = { id: string; role: Role; name: string };

const ROLE_NAMES: Readonly<Record<Role, string>> = {
  mechanic: 'a mechanic',
  owner: 'an owner',
  supplier: 'a supplier',
};

/** Somebody was added to the shop's people, or something new of them was. */
export function personAdded({ id, name, role, isNew }: Called & { isNew: boolean }): Answer {
  const what = isNew ? `${name} is down as ${ROLE_NAMES[role]}.` : `Noted for ${name}.`;
  return plain(`${what} With an invitation they can be written to here.`, [
    [{ label: 'Make an invitation', action: { do: 'invite', person: id, role } }],
  ]);
}

export function phoneNoted(name: string, phone: string): Answer {
  return plain(`Noted: ${name}, ${clipped(phone, 30)}.`);
}

export function noOwnerYet(): Answer {
  return plain('This machine has no owner down yet. Say, for example, “owner Mrs Dale, 01632 960123”.');
}

export function noSuchPerson(name: string): Answer {
  return plain(
    `I don’t know anyone called ${clipped(name, 60)}. “people” shows everyone; to add somebody say, for example, “supplier ${clipped(name, 60)}, chrome, 01632 960123”.`,
  );
}

export function whichPerson(found: readonly Called[]): Answer {
  return message(
    ['Who do you mean?'],
    found
      .slice(0, 10)
      .map(({ id, name, role }): Button[] => [
        { label: `${clipped(name, 40)}, ${role}`, action: { do: 'invite', person: id, role } },
      ]),
  );
}

export function invitationAnswer(name: string, link: string): Answer {
  const whom = name === '' ? 'them' : name;
  const text = `Pass this link on to ${whom}, and to nobody else:\n${link}\nIt works once, within seven days. When it is taken I’ll show you who took it.`;
  return { ...plain(text), unkept: true };
}

/** To whoever opened the link. */
export function invitationTaken(): Answer {
  return plain(
    'Thank you. The workshop has been asked to confirm that it’s you; you’ll hear from me as soon as they have.',
  );
}

/** Why an invitation, or what was asked of somebody's data, came to nothing, with what to do. */
export function invitationRefused(refusal: ShopRefusal): Answer {
  switch (refusal.why) {
    case 'no-such-invitation':
      return plain('That invitation isn’t there any more. Please ask the workshop for a new link.');
    case 'invitation-expired':
      return plain('That link has run out; they last seven days. Please ask the workshop for a new one.');
    case 'invitation-used':
      return plain(
        'That link has been used already. If it wasn’t by you, please ask the workshop for a new one.',
      );
    case 'no-such-person':
      return plain('They aren’t among the shop’s people any more. “people” shows who is.');
    case 'no-such-job':
      return plain('That machine isn’t in. “machines” shows those that are.');
    case 'title-taken':
      return plain(`There is a ${refusal.title} in the shop already. Give this one another name.`);
    case 'policy-wrong':
      return plain('That rule can’t be set so. “shop rules” shows what each takes.');
    case 'no-such-word':
      return plain('I don’t know that word as one of yours, so there is nothing to forget.');
  }
}

const SEES: Readonly<Record<Role, string>> = {
  mechanic: 'can do all that you can',
  owner: 'sees only what is theirs',
  supplier: 'sees only what they have of yours',
};

/** The mechanic's word on who took a link. */
export function settledGuest(name: string, welcome: boolean, role: Role): Answer {
  const who = name === '' ? 'They' : name;
  return plain(
    welcome
      ? `${who} can write to me now, and ${SEES[role]}.`
      : 'Turned away; they see nothing. Make a new invitation when you like.',
  );
}

export function askForget(found: readonly Called[]): Answer {
  return message(
    [
      'Their name, numbers, chat and all they wrote would be removed for good. What was recorded of machines stays, without the name. Go ahead?',
    ],
    found
      .slice(0, 10)
      .map(({ id, name, role }): Button[] => [
        { label: `Forget ${clipped(name, 40)}, ${role}`, action: { do: 'forget', person: id } },
      ]),
  );
}

export function forgotten(name: string): Answer {
  const who = name === '' ? 'They are' : `${name} is`;
  return { ...plain(`Done. ${who} forgotten: name, numbers, chat and words are gone.`), unkept: true };
}
