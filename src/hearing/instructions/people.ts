import { readMessage } from '../read-message.js';
import type { Instruction } from './instruction.js';
import type { Hearer } from './read-instruction.js';

/** What is told of somebody begins with a verb; a name doesn't: 'owner agreed to all of it' enters nobody. */
const TOLD_OF =
  /^(?:(?:has |have |had )?(?:agree[ds]?|refuse[ds]?|say|says|said|okayed|approve[ds]?|declined?s?|rang|called|phoned|asked|answered|accepted?s?)|wants?|wanted|is|isn't|was|has|hasn't|doesn't|won't|will|would|can|happy|ok|okay|yes|no)\b/i;

const PHONE = /(?:\+?\d[\d ()-]{6,}\d)/;

/** 'Supplier Harrow Plating, chrome and nickel, 01632 960123', 'invite Mrs Dale', 'forget Mrs Dale'. */
export function readPeopleInstruction(text: string, hearer: Hearer): Instruction | null {
  const adding = /^(?:add |new )?(supplier|owner|mechanic):? (.+)$/i.exec(text);
  if (adding && !TOLD_OF.test(adding[2] ?? ''))
    return readAdding((adding[1] ?? '').toLowerCase(), adding[2] ?? '', hearer);
  const phone = readPhone(text, hearer);
  if (phone) return phone;
  const invite = /^invite (?:the )?(.{2,60})$/i.exec(text);
  if (invite) return { kind: 'invite', name: (invite[1] ?? '').replace(/ (?:in|to the chat)$/i, '') };
  const forget = /^forget (?:about )?(?!that$|the word)(.{2,60})$/i.exec(text);
  if (forget) return { kind: 'forget', name: forget[1] ?? '' };
  const ask =
    /^ask (?:the owner|him|her|them|[\w.' ]{2,30}?)(?: about| for a yes (?:on|to)| if (?:that|it)'s (?:ok|all right))?:? ?((?:\d+(?:, ?| and | ?& ?)?)*)$/i.exec(
      text,
    );
  if (!ask || !meansOwner(text, hearer)) return null;
  const items = [...(ask[1] ?? '').matchAll(/\d+/g)].map(([digits]) => Number(digits));
  return { kind: 'ask-owner', items };
}

/** 'Mr Coyle's number is 01632 960444', 'owner's on 01632 960444'. */
function readPhone(text: string, { known }: Hearer): Instruction | null {
  const said =
    /^(?:the |ring )?(.{2,40}?)(?:'s?)? (?:(?:(?:tele)?phone|mobile)? ?number(?: is|'s|:)?|mobile(?: is|'s|:)?|phone(?: is|'s|:)?|is on|on|tel:?) ([+0][\d ()-]{7,}\d)$/i.exec(
      text,
    );
  if (!said) return null;
  const [, name = '', phone = ''] = said;
  if (/^owner$/i.test(name)) return { kind: 'note-phone', name: null, phone };
  const people = [...known.suppliers, ...(known.owners ?? [])].flatMap((each) => [
    each.name,
    ...(each.also ?? []),
  ]);
  // A frame has a number too.
  const isSomebody = /^(?:mr|mrs|miss|ms|dr)\b/i.test(name) || people.some((each) => hasWord(each, name));
  return isSomebody ? { kind: 'note-phone', name, phone } : null;
}

/** 'Ask Mrs Dale' is an instruction only where she owns something here. */
function meansOwner(text: string, { known }: Hearer): boolean {
  if (/^ask (?:the owner|him|her|them)\b/i.test(text)) return true;
  const [, asked = ''] =
    /^ask (.+?)(?: about\b.*| for a yes\b.*| if (?:that|it)'s\b.*|:.*| \d.*)?$/i.exec(text) ?? [];
  return (known.owners ?? []).some(({ name, also }) =>
    [name, ...(also ?? [])].some((each) => hasWord(each, asked)),
  );
}

function readAdding(role: string, rest: string, { today, known }: Hearer): Instruction | null {
  if (role !== 'supplier' && role !== 'owner' && role !== 'mechanic') return null;
  const phone = PHONE.exec(rest)?.[0] ?? null;
  const pieces = rest
    .replace(PHONE, '')
    .split(/[,;:] ?| - /)
    .map((piece) => piece.trim())
    .filter((piece) => piece !== '');
  const [name, ...about] = pieces;
  if (name === undefined) return null;
  const machine = known.machines.find((each) =>
    about.some((piece) => piece.toLowerCase().includes(each.name.toLowerCase())),
  );
  const processes = role === 'supplier' ? processesIn(about.join(', '), { today, known }) : [];
  return { kind: 'add-person', role, name, processes, phone, machine: machine?.name ?? null };
}

/** What a supplier does is heard as it would be of a thing sent there. */
function processesIn(
  about: string,
  { today }: Hearer,
): Extract<Instruction, { kind: 'add-person' }>['processes'] {
  if (about === '') return [];
  const pieces = about.split(/, | and | & /);
  const read = pieces.flatMap((piece) => readMessage(`bracket to be sent for ${piece}`, { today }).items);
  return [...new Set(read.flatMap(({ processes }) => processes))];
}

function hasWord(name: string, said: string): boolean {
  return ` ${name.toLowerCase()} `.includes(` ${said.toLowerCase()} `);
}
