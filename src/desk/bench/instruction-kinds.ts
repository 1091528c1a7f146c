import type { Instruction } from '../../hearing/instructions/instruction.js';

/** Instructions that concern the shop or no job yet; all others are about the job on the bench. */
const OF_THE_SHOP = [
  'open-job',
  'put-on-bench',
  'add-person',
  'note-phone',
  'invite',
  'forget',
  'undo',
  'correct',
  'show-rules',
  'set-rule',
  'closed',
  'learn-word',
  'unlearn-word',
  'show-jobs',
  'show-people',
  'help',
  'suppose',
  'show-fortnight',
  'health',
] as const satisfies readonly Instruction['kind'][];
export type OfShop = Extract<Instruction, { kind: (typeof OF_THE_SHOP)[number] }>;
export type OnJob = Exclude<Instruction, OfShop>;

export function isOfShop(instruction: Instruction): instruction is OfShop {
  return OF_THE_SHOP.some((kind) => kind === instruction.kind);
}
