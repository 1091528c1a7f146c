import { buildOf } from '../../job/build-order.js';
import type { JobCommand, Target } from '../../job/commands.js';
import { awaitsYes } from '../../job/needs.js';
import type { JobState } from '../../job/state.js';
import type { Answer } from '../../wording/answer.js';
import { noSuchFault } from '../../wording/bench.js';
import { noSuchCheck } from '../../wording/lists.js';
import type { OnJob } from './instruction-kinds.js';
import { stepCommand } from './step-commands.js';

/** What of a job an instruction asks to see. */
export type Showing = 'steps' | 'checks' | 'list' | 'timeline';

/** What an instruction about a job comes to: commands, something to show, or an answer at once. */
export type Meant = { commands: JobCommand[] } | { show: Showing } | { answer: Answer };

/** Finds the commands; `text` is where the message's words are kept. */
export function commandFor(instruction: OnJob, state: JobState, text: string): Meant {
  switch (instruction.kind) {
    case 'work-done':
      return { commands: [{ type: 'work-done', target: target(instruction) }] };
    case 'pass-gate':
      return { commands: [{ type: 'pass-gate', gate: instruction.gate }] };
    case 'ask-owner':
      return {
        commands: [
          {
            type: 'ask-yes',
            items: instruction.items.length > 0 ? instruction.items : worthAsking(state),
          },
        ],
      };
    case 'want-by':
      return { commands: [{ type: 'want-by', gate: instruction.gate, date: instruction.date }] };
    case 'find-fault':
      return { commands: [{ type: 'find-fault', target: null, text }] };
    case 'clear-fault': {
      const open = state.faults.filter(({ clearedAt }) => clearedAt === null);
      const fault = instruction.fault ?? (open.length === 1 ? open[0]?.number : undefined);
      return fault === undefined ? { answer: noSuchFault() } : { commands: [{ type: 'clear-fault', fault }] };
    }
    case 'do-check': {
      const check = state.checks.find(({ name }) => sharesWords(name, instruction.words));
      return check
        ? { commands: [{ type: 'do-check', check: check.id, text }] }
        : { answer: noSuchCheck(instruction.words) };
    }
    case 'do-checks': {
      const beyond = instruction.checks.find((number) => !state.checks[number - 1]);
      if (beyond !== undefined) return { answer: noSuchCheck(String(beyond)) };
      const checks = instruction.checks.flatMap((number) => state.checks[number - 1]?.id ?? []);
      return { commands: checks.map((check) => ({ type: 'do-check', check, text })) };
    }
    case 'fit-steps': {
      const { steps } = buildOf(state);
      const ids = instruction.steps.map((number) => steps[number - 1]?.id ?? String(number));
      return { commands: ids.map((step) => ({ type: 'fit-step', step })) };
    }
    case 'hand-over':
      return { commands: [{ type: 'hand-over' }] };
    case 'show-steps':
      return { show: 'steps' };
    case 'show-checks':
      return { show: 'checks' };
    case 'show-list':
      return { show: 'list' };
    case 'show-timeline':
      return { show: 'timeline' };
    case 'add-step':
    case 'drop-step':
    case 'link-step':
    case 'time-step':
    case 'fit-step':
    case 'undo-step':
      return { commands: [stepCommand(instruction, state, text)] };
  }
}

function target({
  item,
  part,
  place,
}: {
  item: number | null;
  part: string | null;
  place: Target['place'];
}): Target {
  return { item, part, called: null, place, count: null };
}

/**
 * What an owner is asked about where nothing is named: all that is decided, costs something, and was not asked before; what
 * they wanted to talk about, or agreed to for less than it costs now, is asked again.
 */
function worthAsking(state: JobState): number[] {
  return Object.values(state.items)
    .filter(({ remedy, cost, fitted }) => remedy !== null && cost !== null && !fitted)
    .filter((item) => {
      const { agreement } = item;
      const isDearer = agreement.status === 'yes' && awaitsYes(state, item, { ownerYesFrom: 0 });
      return agreement.status === 'not-asked' || agreement.status === 'talk' || isDearer;
    })
    .map(({ number }) => number);
}

/** 'Tappets done' means the check whose name has the word. */
function sharesWords(name: string, words: string): boolean {
  const inName = name.toLowerCase();
  const said = words
    .toLowerCase()
    .split(/\W+/)
    .filter((word) => word.length > 2);
  return said.length > 0 && said.every((word) => inName.includes(word.replace(/s$/, '')));
}
