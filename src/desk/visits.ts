import type { Asked } from '../record/one-update.js';
import { forOneUpdate } from '../record/one-update.js';
import { cannotListen } from '../wording/bench.js';
import type { Answer } from '../wording/answer.js';
import type { BenchListener } from './bench/read-ahead.js';
import { readAhead } from './bench/read-ahead.js';
import { receiveAtBench } from './bench/receive.js';
import { listenerNext } from './bench/understand.js';
import type { DeskDeps } from './deps.js';
import type { Conversation, Desk, Incoming, Visit } from './desk.js';
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

/** What the last update of a chat asked of the record, and by what a message after it is read where nothing has changed. */
type Lately = { asked: Asked; listener: BenchListener | null };

/** Opens visits, each reading at once what the last one from the same chat had to read. */
export function makeVisits(deps: DeskDeps): Desk['visit'] {
  const lately = new Map<number, Lately>();
  const remember = (chatId: number, last: Lately): void => {
    lately.delete(chatId);
    lately.set(chatId, last);
    const oldest = lately.keys().next();
    if (lately.size > CHATS_KEPT && !oldest.done) lately.delete(oldest.value);
  };
  return (chatId, key, text) => {
    const last = lately.get(chatId);
    const update = forOneUpdate(deps.record, { key, chatId, likely: last?.asked });
    // The record has been asked: it answers meanwhile.
    const ahead = text !== undefined && last?.listener ? readAhead(text, last.listener) : null;
    const { people } = update.record;
    const forget: typeof people.forget = (id) => {
      // What is remembered of a chat may name them.
      lately.clear();
      return people.forget(id);
    };
    const its = { ...deps, record: { ...update.record, people: { ...people, forget } } };
    const place: Workplace = { deps: its, store: openStore(its), ahead };
    const conversation = converse(place);
    let said: Incoming | undefined;
    return {
      ...conversation,
      bench: (message) => {
        said = message;
        return conversation.bench(message);
      },
      who: () => who(its, place.store, chatId),
      calledInChat: (person, name) => nameFromChat(place, person, name),
      kept: async () => {
        await update.kept();
        // The update is done: where this can't be told now, its successor is read once the record has answered.
        const listener = said === undefined ? null : await listenerNext(place, said).catch(() => null);
        remember(chatId, { asked: update.asked(), listener });
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
