import type { Known } from '../listener.js';
import { readBuildInstruction } from './build.js';
import { readCorrection } from './correction.js';
import { readGateInstruction } from './gates.js';
import { readHealth } from './health.js';
import type { Instruction } from './instruction.js';
import { readJobInstruction } from './jobs.js';
import { readPeopleInstruction } from './people.js';
import { readList, readShopInstruction } from './shop.js';
import { readSupposing } from './supposing.js';
import { readWorkInstruction } from './work.js';

/** What reading an instruction may know: the day it was written, and the shop's names. */
export type Hearer = { today: string; known: Known };

/** One kind of instruction: gives what it recognises, or null. */
export type Read = (text: string, hearer: Hearer) => Instruction | null;

const READERS: readonly Read[] = [
  readCorrection,
  readShopInstruction,
  readJobInstruction,
  readPeopleInstruction,
  readGateInstruction,
  readBuildInstruction,
  readWorkInstruction,
];

/**
 * The instruction in a message, or null where it tells or asks something. Instructions are short and come alone:
 * each pattern takes the whole message, so that talk which merely begins like one is left to the reader of talk.
 */
export function readInstruction(text: string, hearer: Hearer): Instruction | null {
  const said = tidy(text);
  const asked = readSupposing(said, hearer) ?? readHealth(said) ?? readList(said);
  if (asked) return asked;
  if (said === '' || said.endsWith('?')) return null;
  for (const read of READERS) {
    const found = read(said, hearer);
    if (found) return found;
  }
  return null;
}

/** One space between words, plain quotes, and no full stop at the end. */
function tidy(text: string): string {
  return text
    .replace(/[’‘]/g, "'")
    .replace(/[“”]/g, '"')
    .replace(/\s+/g, ' ')
    .replace(/[.!]+$/, '')
    .trim();
}
