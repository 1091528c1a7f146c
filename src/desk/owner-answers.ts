import type { ContactState, MessageOut } from '../contact/state.js';
import { agreesToTheRest, bareAnswer, isPutOff, isTooDear } from '../hearing/owner-words.js';
import type { ItemReading, Reading } from '../hearing/reading.js';
import { resolve } from '../job/resolve.js';
import type { JobState } from '../job/state.js';

export type OwnersAnswer = { items: number[]; outcome: 'yes' | 'no' | 'talk' };

/**
 * What the owner said yes or no to: what they named, and else all that they were asked and did not name apart. A price
 * that is too dear, or a wish to be asked again, leaves open what was waiting for them. `isAnswer`: the question is what stands
 * before it, so that an 'OK, thanks' is to that, and not to some news that came after.
 */
export function ownersAnswers(
  reading: Reading,
  text: string,
  state: JobState,
  isAnswer: boolean,
): OwnersAnswer[] {
  const waiting = Object.values(state.items)
    .filter(({ agreement }) => agreement.status === 'asked' || agreement.status === 'talk')
    .map(({ number }) => number);
  const told = isTooDear(text)
    ? tooDear(reading, text, state, waiting)
    : isPutOff(text)
      ? [{ items: waiting, outcome: 'talk' as const }]
      : (bare(text, isAnswer ? waiting : []) ?? asRead(reading, state, waiting));
  return told.filter(({ items }) => items.length > 0);
}

/** Whether the last message to the owner, or the one replied to, asked for their yes. */
export function answersQuestion({ messages }: ContactState, replyTo: number | null): boolean {
  const sent = Object.values(messages).filter(({ status }) => status === 'sent');
  const before =
    sent.find(({ chatMessage }) => replyTo !== null && chatMessage === replyTo) ??
    sent.reduce<MessageOut | null>(
      (last, each) => ((each.sentAt ?? 0) >= (last?.sentAt ?? 0) ? each : last),
      null,
    );
  return before?.kind === 'yes-asked';
}

function bare(text: string, waiting: readonly number[]): OwnersAnswer[] | null {
  const outcome = bareAnswer(text);
  return outcome === null ? null : [{ items: [...waiting], outcome }];
}

function asRead({ items }: Reading, state: JobState, waiting: readonly number[]): OwnersAnswer[] {
  const agreed = items.filter(({ act, outcome }) => act === 'agreed' && outcome !== null);
  const apart = new Set(agreed.flatMap((item) => itemsNamed(item, state)));
  const rest = waiting.filter((number) => !apart.has(number));
  return agreed.map((item) => ({
    items: isGeneral(item) ? rest : itemsNamed(item, state),
    outcome: item.outcome === 'yes' || item.outcome === 'no' ? item.outcome : 'talk',
  }));
}

/** What is named beside the price is to be talked about; a yes to all, said as such, holds for the rest. */
function tooDear(
  { items }: Reading,
  text: string,
  state: JobState,
  waiting: readonly number[],
): OwnersAnswer[] {
  const named = new Set(items.filter((item) => !isGeneral(item)).flatMap((item) => itemsNamed(item, state)));
  if (named.size === 0) return [{ items: [...waiting], outcome: 'talk' }];
  const rest = waiting.filter((number) => !named.has(number));
  return [
    ...(agreesToTheRest(text) ? [{ items: rest, outcome: 'yes' as const }] : []),
    { items: [...named], outcome: 'talk' },
  ];
}

const isGeneral = ({ item, part }: ItemReading): boolean => item === null && part === null;

function itemsNamed({ item, part, place, count }: ItemReading, state: JobState): number[] {
  const found = resolve(state, { item, part, called: null, place, count });
  if (found.kind === 'found') return [found.item.number];
  return found.kind === 'each' || found.kind === 'several' ? found.items.map(({ number }) => number) : [];
}
