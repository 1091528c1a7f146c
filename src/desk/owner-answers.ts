import type { ContactState, MessageOut } from '../contact/state.js';
import type { Listener } from '../hearing/listener.js';
import type { OwnersAnswer } from '../hearing/owners/answers.js';
import { ownersAnswers } from '../hearing/owners/answers.js';
import type { AskedOf } from '../hearing/owners/things.js';
import type { Item, JobState } from '../job/state.js';

/** What an owner's words answer of what they were asked in a job; what they never were asked about, no word of theirs agrees to. */
export function answersIn(
  text: string,
  state: JobState,
  isAnswer: boolean,
  listener: Listener,
): OwnersAnswer[] {
  const asked = Object.values(state.items).filter(({ agreement }) => agreement.status !== 'not-asked');
  const called = asked.flatMap(({ part, called: said }) =>
    part === null && said !== null ? [{ said, part: said }] : [],
  );
  const known = { suppliers: [], machines: [], items: [], ...listener.known };
  const by = (status: string): number[] =>
    asked.filter(({ agreement }) => agreement.status === status).map(({ number }) => number);
  const questioned = { asked: asked.map(askedOf), waiting: by('asked'), putOff: by('talk'), isAnswer };
  return ownersAnswers(text, questioned, {
    ...listener,
    known: { ...known, words: [...(known.words ?? []), ...called] },
  });
}

const askedOf = ({ number, part, called, place, processes }: Item): AskedOf => ({
  number,
  part: part ?? called,
  place,
  processes,
});

/** Whether the last message to the owner, or the one replied to, asked for their yes in a job. */
export function answersQuestion({ messages }: ContactState, job: string, replyTo: number | null): boolean {
  const sent = Object.values(messages).filter(({ status }) => status === 'sent');
  const before =
    sent.find(({ chatMessage }) => replyTo !== null && chatMessage === replyTo) ??
    sent.reduce<MessageOut | null>(
      (last, each) => ((each.sentAt ?? 0) >= (last?.sentAt ?? 0) ? each : last),
      null,
    );
  return before?.kind === 'yes-asked' && before.about.some((matter) => matter.job === job);
}
