import { dateOf, instant } from '../demo/shop-time.js';
import { nudgedAmiss, nudgesOf, OPENS } from './invariants/expected-nudges.js';
import { silenceAmiss } from './invariants/expected-silence.js';
import type { Happened } from './journal.js';
import type { World } from './world.js';

/** What of the machines, each by its stream's id and title, mechanics were told of today otherwise than they should be: days wanted by, and owners without a word. */
export function duesAmiss(
  { mechanics, jobs, notes, passes, ledger: { closed }, stage }: World,
  happened: readonly Happened[],
  known: readonly { id: string; title: string }[],
): string[] {
  const today = dateOf(stage.driver.now());
  const nudges = known.flatMap(({ id, title }) =>
    nudgesOf(title, { notes, closed, passes: passes.filter(({ job }) => job === id) }),
  );
  const isIn = (title: string): boolean =>
    !notes.some(({ job, what, at }) => job === title && what === 'handed-over' && at < instant(today, OPENS));
  const waiting = jobs.flatMap(({ title, owner }) =>
    owner.chat !== null && isIn(title) ? [{ owner: owner.name, chat: owner.chat.chatId }] : [],
  );
  return mechanics.flatMap(({ user, chatId }) => {
    const mechanic = { who: user.first_name, chat: chatId };
    return [
      ...nudgedAmiss(mechanic, happened, nudges, today),
      ...waiting.flatMap((each) => silenceAmiss(mechanic, each, happened, closed, today)),
    ];
  });
}
