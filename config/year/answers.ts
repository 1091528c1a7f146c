import type { Act, Happened, Shown, Written } from './journal.js';

/** Something that the bot put into a chat, and what it says. */
export type Put = Written | Shown;

export const isPut = (entry: Happened): entry is Put => entry.kind === 'written' || entry.kind === 'shown';

/**
 * What was answered to it: all that was put into its chat after it, before anything else was said once there was an answer, or
 * the shop was woken. `isSent`: what was sent rather than answered is left out. (Default: nothing was)
 */
export function answersTo(
  happened: readonly Happened[],
  act: Act,
  isSent: (put: Put) => boolean = () => false,
): Put[] {
  const answers: Put[] = [];
  for (let index = happened.indexOf(act) + 1; index < happened.length; index += 1) {
    const entry = happened[index];
    if (entry === undefined || entry.kind === 'woken') break;
    if (entry.kind === 'act' && (entry.chat !== act.chat || answers.length > 0)) break;
    if (isPut(entry) && entry.chat === act.chat && !isSent(entry)) answers.push(entry);
  }
  return answers;
}
