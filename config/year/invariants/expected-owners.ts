import type { Gate } from '../../../src/trade/terms.js';
import type { Seen } from '../../../bot/rehearsal/seen.js';

/** A notice that a mechanic let go: of which job, and when (ms). */
export type Released = { job: string; notice: string; at: number };

/** Every notice to an owner ends so; answers to their questions don't. */
const ENDS = 'If you have a question, just write here.';

const TOLD: Readonly<Record<Gate, string>> = {
  stripped: 'stripped down',
  inspected: 'Every part has been looked over',
  'parts-ordered': 'have been ordered',
  'sublet-out': 'has gone off to have it done',
  reassembled: 'built up again',
  'road-tested': 'road-tested',
};

const REOPENED: Readonly<Record<Gate, readonly string[]>> = {
  stripped: ['A little more has to come apart'],
  inspected: ['Something more has come to light'],
  'parts-ordered': ['something more in the way of parts'],
  'sublet-out': ['Something more has to go out', 'came back not as it should be'],
  reassembled: ['Something has to come off once more'],
  'road-tested': ['Riding it showed something'],
};

/** The notices in an owner's chat; one that may have come twice, once. */
export function noticesIn(messages: readonly Seen[]): Seen[] {
  const notices = messages.filter(({ by, text }) => by === 'bot' && text.includes(ENDS));
  return [...new Map(notices.map((each) => [`${each.date} ${each.text}`, each])).values()];
}

/**
 * An owner is told as often as a mechanic let a notice go, at that very time: those of the play are all let go on a
 * weekday's morning, when owners may be written to.
 */
export function notToldAsReleased(
  who: string,
  messages: readonly Seen[],
  released: readonly Released[],
): string[] {
  const told = noticesIn(messages).map(({ date }) => date * 1000);
  // Each mechanic has a button: the first to press lets it go.
  const letGo = [...new Map([...released].reverse().map((each) => [each.notice, each])).values()].map(
    ({ at }) => at,
  );
  const times = new Set([...told, ...letGo]);
  return [...times].flatMap((at) => {
    const count = (list: readonly number[]): number => list.filter((each) => each === at).length;
    return count(told) === count(letGo)
      ? []
      : [
          `${who} was told ${count(told)} times at ${new Date(at).toISOString()}, let go were ${count(letGo)}`,
        ];
  });
}

/** What an owner was told last of a gate is what is so: that it was passed. What opened and was passed again untold is not news. */
export function gateUntold(
  who: string,
  messages: readonly Seen[],
  passed: readonly { gate: Gate; at: number }[],
): string[] {
  return passed
    .filter(({ gate }) => {
      const last = noticesIn(messages).findLast(
        ({ text }) => text.includes(TOLD[gate]) || REOPENED[gate].some((words) => text.includes(words)),
      );
      return last?.text.includes(TOLD[gate]) !== true;
    })
    .map(({ gate, at }) => `${who} was not told that ${gate} was passed on ${new Date(at).toISOString()}`);
}
