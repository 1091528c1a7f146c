import type { Stage } from '../demo/stage.js';
import type { Act, Happened, Written } from './journal.js';
import type { Dice } from './names.js';

/** What came of an update that was told to the bot once more. */
export type Again = {
  act: Act;
  /** What was answered at first to it, and to what else came with it, as in an album. */
  answers: readonly string[];
  /** What was written then, anywhere. */
  written: readonly Written[];
};

/** Events of each stream. */
export type Versions = Readonly<Record<string, number>>;

/** Of each chat one edit, one press, and of its messages one that begins with each word; as the dice have it. */
export function someOfAll(happened: readonly Happened[], dice: Dice): Act[] {
  const kinds = new Map<string, Act[]>();
  for (const entry of happened) {
    if (entry.kind !== 'act') continue;
    const kind = `${entry.chat} ${entry.how} ${entry.how === 'message' ? entry.text.split(' ', 1)[0] : ''}`;
    kinds.set(kind, [...(kinds.get(kind) ?? []), entry]);
  }
  return [...kinds.values()].map((acts) => dice.pick(acts));
}

/** Tells the bot once more of things it answered before, one after the other. */
export async function tellAgain(
  { rehearsal, driver }: Pick<Stage, 'rehearsal' | 'driver'>,
  happened: readonly Happened[],
  acts: readonly Act[],
): Promise<Again[]> {
  const told: Again[] = [];
  for (const act of acts) {
    const before = happened.length;
    rehearsal.redeliver(act.update);
    await driver.quiet();
    const written = happened.slice(before).filter((entry) => entry.kind === 'written');
    told.push({ act, answers: answersTo(happened.slice(0, before), act), written });
  }
  return told;
}

/** What was written after it in its chat, before anything else was said once there was an answer, or the shop was woken. */
function answersTo(happened: readonly Happened[], act: Act): string[] {
  const answers: string[] = [];
  for (const entry of happened.slice(happened.indexOf(act) + 1)) {
    if (entry.kind === 'woken') break;
    if (entry.kind === 'act' && (entry.chat !== act.chat || answers.length > 0)) break;
    if (entry.kind === 'written' && entry.chat === act.chat) answers.push(entry.text);
  }
  return answers;
}

/** Whoever is told again says again what it said, there alone, and records nothing. */
export function notAnsweredAsBefore(told: readonly Again[], before: Versions, after: Versions): string[] {
  const moved = [...new Set([...Object.keys(before), ...Object.keys(after)])].filter(
    (stream) => before[stream] !== after[stream],
  );
  return [
    ...moved.map((stream) => `${stream} moved as updates came again: ${before[stream]} to ${after[stream]}`),
    ...told.flatMap(({ act, answers, written }) => {
      const said = `“${act.text}” (update ${act.update}), told again,`;
      const elsewhere = written.filter(({ chat }) => chat !== act.chat);
      const here = written.filter(({ chat }) => chat === act.chat);
      return [
        ...elsewhere.map(({ text }) => `${said} had somebody else told: “${text.slice(0, 60)}”`),
        ...(here.length > 1 ? [`${said} was answered ${here.length} times`] : []),
        ...here
          .filter(({ text }) => !answers.includes(text))
          .map(
            ({ text }) =>
              `${said} was answered otherwise: “${text.slice(0, 60)}”, not “${answers.join('” or “')}”`,
          ),
      ];
    }),
  ];
}
