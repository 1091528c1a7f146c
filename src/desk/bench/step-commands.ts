import type { Instruction } from '../../hearing/instructions/instruction.js';
import { buildOf } from '../../job/build-order.js';
import type { JobCommand } from '../../job/commands.js';
import type { JobState } from '../../job/state.js';

export type StepInstruction = Extract<
  Instruction,
  { kind: 'add-step' | 'drop-step' | 'link-step' | 'time-step' | 'fit-step' | 'undo-step' }
>;

/** Steps are spoken of by their place in the build order as it is shown. */
export function stepCommand(instruction: StepInstruction, state: JobState, text: string): JobCommand {
  const { steps } = buildOf(state);
  const id = (number: number): string => steps[number - 1]?.id ?? String(number);
  const ids = (number: number | null): string[] => (number === null ? [] : [id(number)]);
  switch (instruction.kind) {
    case 'add-step': {
      const { after, before, hours } = instruction;
      return {
        type: 'add-step',
        name: text,
        after: ids(after),
        before: ids(before),
        parts: [],
        hours: hours ?? 1,
      };
    }
    case 'drop-step':
      return { type: 'drop-step', step: id(instruction.step) };
    case 'link-step':
      return {
        type: 'link-step',
        step: id(instruction.step),
        after: id(instruction.after),
        linked: instruction.linked,
      };
    case 'time-step':
      return { type: 'time-step', step: id(instruction.step), hours: instruction.hours };
    case 'fit-step':
      return { type: 'fit-step', step: id(instruction.step) };
    case 'undo-step':
      return { type: 'undo-step', step: id(instruction.step) };
  }
}
