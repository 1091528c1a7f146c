import type { JobCommand, Refusal } from './commands.js';
import * as build from './decide/build.js';
import type { Bench, Decision, Draft } from './decide/draft.js';
import { add, refuse, startDraft } from './decide/draft.js';
import { forEach } from './decide/each.js';
import * as findings from './decide/findings.js';
import * as gates from './decide/gates.js';
import * as lines from './decide/lines.js';
import { openJob } from './decide/opening.js';
import * as promises from './decide/promises.js';
import { takeBack } from './decide/returns.js';
import * as owner from './decide/owner.js';
import * as roadTest from './decide/road-test.js';
import type { JobEvent } from './events.js';
import { event } from './events.js';
import { isSaid } from './messages-said.js';
import type { JobState } from './state.js';

export type { Bench, Decision } from './decide/draft.js';

/**
 * What a command comes to: the events to record, gates reopened by them included, or a refusal with its reason.
 * Facts are taken as told; only what the rules of the gates forbid, or what cannot be placed, is refused.
 */
export function decide(state: JobState, command: JobCommand, bench: Bench): Decision {
  const { events, refused } = decideAll(state, [command], bench);
  const [first] = refused;
  return first ? { refusal: first.refusal } : { events };
}

export type Refused = { command: number; refusal: Refusal };

/**
 * Several commands of one message in their order, each seeing what came before it; refusals stand beside what was done.
 * Gates are judged after the whole: what a message breaks and mends again reopens none.
 */
export function decideAll(
  state: JobState,
  commands: readonly JobCommand[],
  bench: Bench,
): { events: JobEvent[]; refused: Refused[] } {
  const refused: Refused[] = [];
  const draft = commands.reduce((before, command, index) => {
    const decision = decideEach(before, command, bench);
    if ('draft' in decision) return decision.draft;
    refused.push({ command: index, refusal: decision.refusal });
    return before;
  }, startDraft(state));
  return { events: [...gates.consequences(draft, bench).events], refused };
}

/** A command said of several items is refused only where it can be carried out for none. */
function decideEach(
  before: Draft,
  command: JobCommand,
  bench: Bench,
): { draft: Draft } | { refusal: Refusal } {
  if (before.state.status === 'none' && command.type !== 'open-job') return { refusal: { why: 'no-job' } };
  let refusal: Refusal | null = null;
  let draft: Draft | null = null;
  for (const each of forEach(before.state, command)) {
    const decision: Decision = decideOne((draft ?? before).state, each, bench);
    if ('refusal' in decision) refusal ??= decision.refusal;
    else draft = add(draft ?? before, bench, ...decision.events);
  }
  return draft === null && refusal !== null ? { refusal } : { draft: draft ?? before };
}

function decideOne(state: JobState, command: JobCommand, bench: Bench): Decision {
  switch (command.type) {
    case 'open-job':
      return openJob(state, command);
    case 'note-arrival':
      return { events: [event('arrival-noted', { text: command.text, attachments: command.attachments })] };
    case 'name-owner':
      return { events: [event('owner-named', { owner: command.owner })] };
    case 'log-finding':
      return findings.logFinding(state, command, bench);
    case 'take-off':
      return findings.takeOff(state, command, bench);
    case 'price':
      return findings.price(state, command, bench);
    case 'order':
      return lines.order(state, command, bench);
    case 'send':
      return lines.send(state, command, bench);
    case 'promise':
      return promises.promise(state, command, bench);
    case 'take-back':
      return takeBack(state, command, bench);
    case 'promise-line':
      return promises.promiseLine(state, command, bench);
    case 'answer-lines':
      return promises.answerLines(state, command);
    case 'work-done':
      return findings.doWork(state, command, bench);
    case 'fit':
      return build.fit(state, command, bench);
    case 'fit-step':
      return build.fitStep(state, command, bench);
    case 'undo-step':
      return build.undoStep(state, command);
    case 'add-step':
      return build.addStep(state, command);
    case 'drop-step':
      return build.dropStep(state, command);
    case 'link-step':
      return build.linkStep(state, command);
    case 'time-step':
      return build.timeStep(state, command);
    case 'do-check':
      return roadTest.doCheck(state, command);
    case 'road-test':
      return roadTest.roadTest(state, command);
    case 'find-fault':
      return roadTest.findFault(state, command);
    case 'clear-fault':
      return roadTest.clearFault(state, command);
    case 'ask-yes':
      return owner.askYes(state, command);
    case 'answer':
      return owner.answer(state, command);
    case 'want-by':
      return { events: [event('wanted-by-set', { gate: command.gate, date: command.date })] };
    case 'pass-gate':
      return gates.passGate(state, command, bench);
    case 'draft-notice':
      return owner.draftNotice(state, command);
    case 'settle-notice':
      return owner.settleNotice(state, command);
    case 'keep-note':
      return findings.keepNote(state, command);
    case 'correct-item':
      return findings.correctItem(state, command);
    case 'undo':
      return undo(state, command.message);
    case 'attachment-fetched':
      return { events: [event('attachment-fetched', { unique: command.unique, hash: command.hash })] };
    case 'attachment-lost':
      return { events: [event('attachment-lost', { unique: command.unique, why: command.why })] };
    case 'settle':
      return { events: [] };
    case 'hand-over':
      return gates.handOver(state, bench);
  }
}

function undo(state: JobState, message: string): Decision {
  if (!isSaid(state.messages, message)) return refuse({ why: 'nothing-to-undo' });
  return { events: [event('message-undone', { message })] };
}
