import type { Instruction } from './instruction.js';
import { NUMBERS, numbersIn } from './numbers.js';

const SEVERAL_DONE = new RegExp(`^steps (${NUMBERS})(?: are)?(?: all)? (?:done|fitted|finished|on|in)$`, 'i');

/** The build order edited, and its steps told as done, by their numbers in it: 'step 12 done', 'steps 1 to 6 done', 'step 9 after 8', 'new step: fit the damper, after 14, half an hour'. */
export function readBuildInstruction(text: string): Instruction | null {
  const adding = /^(?:new|add(?: a)?) step:? (.+)$/i.exec(text);
  if (adding) return readAdded(adding[1] ?? '');
  const dropping = /^(?:drop|remove|delete|no) step (\d{1,3})$/i.exec(text);
  if (dropping) return { kind: 'drop-step', step: Number(dropping[1]) };
  const several = SEVERAL_DONE.exec(text)?.[1];
  if (several !== undefined) return { kind: 'fit-steps', steps: numbersIn(several) };
  const about = /^step (\d{1,3}):? (?:is |takes |comes |goes |was )?(.+)$/i.exec(text);
  return about ? readStep(Number(about[1]), (about[2] ?? '').toLowerCase()) : null;
}

function readStep(step: number, said: string): Instruction | null {
  if (/^(?:done|fitted|finished|on|in)$/.test(said)) return { kind: 'fit-step', step };
  if (/^(?:undone|apart|apart again|off|off again|not done|not fitted)$/.test(said))
    return { kind: 'undo-step', step };
  const link = /^(not )?after (?:step )?(\d{1,3})$/.exec(said);
  if (link) return { kind: 'link-step', step, after: Number(link[2]), linked: link[1] === undefined };
  const hours = hoursIn(said);
  return hours === null ? null : { kind: 'time-step', step, hours };
}

function readAdded(said: string): Instruction {
  const after = /\bafter (?:step )?(\d{1,3})\b/i.exec(said)?.[1];
  const before = /\bbefore (?:step )?(\d{1,3})\b/i.exec(said)?.[1];
  const name = said.split(/,| after (?:step )?\d| before (?:step )?\d/i)[0] ?? said;
  return {
    kind: 'add-step',
    name: name.trim(),
    after: after === undefined ? null : Number(after),
    before: before === undefined ? null : Number(before),
    hours: hoursIn(said.toLowerCase().slice(name.length)),
  };
}

function hoursIn(said: string): number | null {
  if (/\bhalf an hour\b/.test(said)) return 0.5;
  const amount = /\b(\d{1,4}(?:\.\d{1,4})?)( and a half)? ?(hours?|hrs?|h|minutes?|mins?)\b/.exec(said);
  if (!amount) return /\ban hour\b/.test(said) ? (/\ban hour and a half\b/.test(said) ? 1.5 : 1) : null;
  const value = Number(amount[1]) + (amount[2] === undefined ? 0 : 0.5);
  return (amount[3] ?? '').startsWith('m') ? value / 60 : value;
}
