import type { Stage } from '../demo/stage.js';
import type { Put } from './answers.js';
import { isPut } from './answers.js';
import type { Act, Happened } from './journal.js';
import type { Dice } from './names.js';

/** What came of an update that was told to the bot once more. */
export type Again = {
  act: Act;
  /** False where the bot was never told of it. */
  isTold: boolean;
  /** What was answered at first to it, and to what else came with it, as in an album. */
  answers: readonly Put[];
  /** What was put then into any chat. */
  put: readonly Put[];
};

/** Events of each stream. */
export type Versions = Readonly<Record<string, number>>;

/** Of each chat one edit, one press, and of its messages one that begins with each word; as the dice have it. */
export function someOfAll(acts: readonly Act[], dice: Dice): Act[] {
  const kinds = new Map<string, Act[]>();
  for (const act of acts) {
    const kind = `${act.chat} ${act.how} ${act.how === 'message' ? act.text.split(' ', 1)[0] : ''}`;
    kinds.set(kind, [...(kinds.get(kind) ?? []), act]);
  }
  return [...kinds.values()].map((some) => dice.pick(some));
}

/** Tells the bot once more of things it answered before, one after the other; `answers` is what was answered to each. */
export async function tellAgain(
  { rehearsal, driver }: Pick<Stage, 'rehearsal' | 'driver'>,
  happened: readonly Happened[],
  acts: readonly Pick<Again, 'act' | 'answers'>[],
): Promise<Again[]> {
  const told: Again[] = [];
  for (const { act, answers } of acts) {
    const before = happened.length;
    const isTold = rehearsal.redeliver(act.update);
    await driver.quiet();
    told.push({ act, isTold, answers, put: happened.slice(before).filter(isPut) });
  }
  return told;
}

/** Whoever is told again of what it answered says again what it said, there alone, and records nothing. */
export function notAnsweredAsBefore(told: readonly Again[], before: Versions, after: Versions): string[] {
  const moved = [...new Set([...Object.keys(before), ...Object.keys(after)])].filter(
    (stream) => before[stream] !== after[stream],
  );
  return [
    ...moved.map((stream) => `${stream} moved as updates came again: ${before[stream]} to ${after[stream]}`),
    ...told.flatMap((again) =>
      amiss(again).map((what) => `“${again.act.text}” (update ${again.act.update}), told again, ${what}`),
    ),
  ];
}

function amiss({ act, isTold, answers, put }: Again): string[] {
  if (!isTold) return ['had never come to the bot'];
  const elsewhere = put.filter(({ chat }) => chat !== act.chat);
  const here = put.filter(({ chat }) => chat === act.chat);
  const times = here.filter(({ kind }) => kind === 'written').length;
  const known = answers.map(said);
  const seen = (list: readonly Put[], what: string): number =>
    list.filter((each) => each.kind === 'shown' && said(each) === what).length;
  const shownAgain = [...new Set(here.filter(({ kind }) => kind === 'shown').map(said))].filter(
    (what) => known.includes(what) && seen(here, what) > seen(answers, what),
  );
  const lacking = new Set(answers.filter(({ kind }) => kind === 'shown').map(said));
  for (const each of here) lacking.delete(said(each));
  return [
    ...elsewhere.map(({ text }) => `had somebody else told: “${text.slice(0, 60)}”`),
    ...(here.length === 0 && known.length > 0 && act.isInAlbum !== true ? ['was not answered'] : []),
    ...(here.length > 0 ? [...lacking].map((each) => `was answered without ${each}`) : []),
    ...shownAgain.map((what) => `was answered more than once with ${what}`),
    ...(times > 1 ? [`was answered ${times} times`] : []),
    ...here
      .map(said)
      .filter((each) => !known.includes(each))
      .map((each) => `was answered otherwise: ${each.slice(0, 60)}, not ${known.join(' or ')}`),
  ];
}

const said = ({ kind, text }: Put): string => (kind === 'shown' ? `a picture: “${text}”` : `“${text}”`);
