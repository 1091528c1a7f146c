import type { Instruction } from './instruction.js';
import { machineWithin } from './machine-first.js';
import type { Hearer } from './read-instruction.js';

const STARTS = [
  /^(?:no|nope|sorry)[,:;.]+ (?:no,? )?(?:that's|that is|it's|i meant|make (?:that|it)|that should be|it should be|should be)(?: the| a| an)? (.+)$/i,
  /^(?:no|nope|sorry)[,:;.]+ (the .+)$/i,
  /^(?:sorry,? )?i meant(?: the| a| an)? (.+)$/i,
  /^(?:make|change) (?:that|it)(?: to)?(?: the| a| an)? (.+)$/i,
  /^(?:that|it) should (?:be|say|have been)(?: the| a| an)? (.+)$/i,
  /^(?:no|nope|sorry)?[,:;.]*(?: ?no,)? ?not (?:the|on the) [\w-]+[,;:]+ (?:but |it's |that's )?(the [\w-]+)$/i,
  /^correction[,:;]? (.+)$/i,
];

/** So loosely said only where it names a machine: 'oh it was the big end' is news. */
const OF_A_MACHINE = [
  /^(?:(?:no|nope|oh|oops|hang on|sorry|wrong (?:bike|machine|one|job))[,:;.!]* )+(?:that|it)(?:'s| was| is| should (?:be|have been))(?: all)?(?: for| on)? the (.+)$/i,
  /^(?:that|it)(?:'s| was| is)(?: all)?(?: for| on)? the ([\w ]{2,40}?),? not the [\w ]{2,40}$/i,
];

/** 'No, that's the pawl', 'make that the offside', 'I meant ninety quid': what was said last, put right. */
export function readCorrection(text: string, { known }: Hearer): Instruction | null {
  for (const start of STARTS) {
    const words = start.exec(text)?.[1];
    if (words !== undefined) return { kind: 'correct', words };
  }
  const titles = known.machines.map(({ name }) => name);
  for (const start of OF_A_MACHINE) {
    const words = start.exec(text)?.[1];
    if (words !== undefined && machineWithin(words, titles)?.without[1] === '')
      return { kind: 'correct', words };
  }
  return null;
}
