import type { Asked } from '../record/one-update.js';
import { forOneUpdate } from '../record/one-update.js';
import { cannotListen } from '../wording/bench.js';
import type { Answer } from '../wording/answer.js';
import { receiveAtBench } from './bench/receive.js';
import type { DeskDeps } from './deps.js';
import type { Conversation, Incoming, Visit } from './desk.js';
import { nameFromChat, takeInvitation } from './invitations.js';
import { openStore } from './open-store.js';
import { hearOwner } from './owner.js';
import { who } from './people.js';
import { press } from './press.js';
import { hearSupplier } from './supplier.js';
import { isVoiceNote, listenTo } from './voice.js';
import type { Workplace } from './workplace.js';

/** Chats whose last update is remembered: more than any shop has people. */
const CHATS_KEPT = 1000;

/** Opens visits, each reading at once what the last one from the same chat had to read. */
export function makeVisits(deps: DeskDeps): (chatId: number, key: string) => Visit {
  const lately = new Map<number, Asked>();
  const remember = (chatId: number, asked: Asked): void => {
    lately.delete(chatId);
    lately.set(chatId, asked);
    const oldest = lately.keys().next();
    if (lately.size > CHATS_KEPT && !oldest.done) lately.delete(oldest.value);
  };
  return (chatId, key) => {
    const update = forOneUpdate(deps.record, { key, chatId, likely: lately.get(chatId) });
    const its = { ...deps, record: update.record };
    const place: Workplace = { deps: its, store: openStore(its) };
    return {
      ...converse(place),
      who: () => who(its, place.store, chatId),
      calledInChat: (person, name) => nameFromChat(place, person, name),
      kept: async () => {
        await update.kept();
        remember(chatId, update.asked());
      },
    };
  };
}

/** Visits of one message each, kept to the end: for whoever has nothing to do meanwhile. */
export function wholeVisits(visit: (chatId: number, key: string) => Visit): Conversation {
  const whole =
    <Name extends keyof Conversation>(name: Name) =>
    async (said: Parameters<Conversation[Name]>[0]): Promise<Answer> => {
      const its = visit(said.chatId, said.key);
      const answer = await (its[name] as (said: Parameters<Conversation[Name]>[0]) => Promise<Answer>)(said);
      await its.kept();
      return answer;
    };
  return {
    bench: whole('bench'),
    owner: whole('owner'),
    supplier: whole('supplier'),
    press: whole('press'),
    takeInvitation: whole('takeInvitation'),
  };
}

function converse(place: Workplace): Conversation {
  const heardFirst = (answer: typeof hearOwner) => (message: Incoming) =>
    place.deps.canListen && isVoiceNote(message) ? listenTo(place, message) : answer(place, message);
  return {
    bench: heardFirst(async (_place, message) => {
      const answer = await receiveAtBench(place, message);
      return isVoiceNote(message) ? cannotListen(answer) : answer;
    }),
    owner: heardFirst(hearOwner),
    supplier: heardFirst(hearSupplier),
    press: (pressed) => press(place, pressed),
    takeInvitation: (taken) => takeInvitation(place, taken),
  };
}
