import type { Instruction } from './instruction.js';

const ARE_YOU_WELL =
  /^(?:hello,? |hi,? |hey,? )?(?:benchhand,? )?(?:are you (?:well|ok|okay|all ?right|in order|working|still there)|is (?:everything|all) (?:well|ok|okay|all ?right|working)(?: with you)?|how are you(?: doing)?|health)\??$/i;

/** 'Are you well?' asks how Benchhand itself is. */
export function readHealth(text: string): Instruction | null {
  return ARE_YOU_WELL.test(text) ? { kind: 'health' } : null;
}
