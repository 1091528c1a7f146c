import type { JobCommand } from './commands.js';
import * as build from './decide/build.js';
import type { Bench, Decision, Draft } from './decide/draft.js';
import { add, done, refuse, startDraft } from './decide/draft.js';
import * as findings from './decide/findings.js';
import * as gates from './decide/gates.js';
import * as lines from './decide/lines.js';
import { openJob } from './decide/opening.js';
import * as owner from './decide/owner.js';
import * as roadTest from './decide/road-test.js';
import { event } from './events.js';
import type { JobState } from './state.js';

export type { Bench, Decision } from './decide/draft.js';

/**
 * What a command comes to: the events to record, gates reopened by them included, or a refusal with its reason.
 * Facts are taken as told; only what the rules of the gates forbid, or what cannot be placed, is refused.
 */
export function decide(state: JobState, command: JobCommand, bench: Bench): Decision {
  if (state.status === 'none' && command.type !== 'open-job') return refuse({ why: 'no-job' });
  const decision = decideOne(state, command, bench);
  if ('refusal' in decision || command.type === 'open-job') return decision;
  return done(gates.consequences(add(startDraft(state), bench, ...decision.events), bench));
}

/** Several commands of one message in their order, each seeing what came before it; refusals stand beside what was done. */
export function decideAll(
  state: JobState,
  commands: readonly JobCommand[],
  bench: Bench,
): {
  events: Draft['events'];
  refused: { command: number; refusal: Extract<Decision, { refusal: unknown }>['refusal'] }[];
} {
  const refused: { command: number; refusal: Extract<Decision, { refusal: unknown }>['refusal'] }[] = [];
  const draft = commands.reduce((before, command, index) => {
    const decision = decide(before.state, command, bench);
    if ('refusal' in decision) {
      refused.push({ command: index, refusal: decision.refusal });
      return before;
    }
    return add(before, bench, ...decision.events);
  }, startDraft(state));
  return { events: draft.events, refused };
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
      return lines.promise(state, command, bench);
    case 'take-back':
      return lines.takeBack(state, command, bench);
    case 'promise-line':
      return lines.promiseLine(state, command, bench);
    case 'answer-lines':
      return lines.answerLines(state, command);
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
      return roadTest.findFault(state, command, bench);
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
      return findings.keepNote(state, command, bench);
    case 'correct-item':
      return findings.correctItem(state, command);
    case 'undo':
      return { events: [event('message-undone', { message: command.message })] };
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
