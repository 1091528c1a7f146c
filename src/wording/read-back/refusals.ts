import { blockersOf } from '../../job/blockers.js';
import type { JobCommand, Refusal } from '../../job/commands.js';
import type { Gate } from '../../trade/terms.js';
import type { Action, Button, Speaker } from '../answer.js';
import { blockerLine } from '../blocking.js';
import type { Line } from '../lines.js';
import { capital, clipped, joined } from '../lines.js';
import { gateName } from '../terms.js';
import { stepName, thingName } from '../things.js';
import { readingWith } from './corrected.js';
import type { Told } from './told.js';
import { rulesOf } from './told.js';

export type Refused = { line: Line; buttons: Button[] };

/** Why something was not done, in plain words, with what to do about it. */
export function refusedWords(told: Told, command: number, refusal: Refusal, speaker: Speaker): Refused {
  const say = (line: Line, ...buttons: Button[]): Refused => ({ line, buttons });
  switch (refusal.why) {
    case 'which-item':
      return whichItem(told, command, refusal.candidates, speaker);
    case 'no-such-item':
      return say(`There is no number ${refusal.item} on the list. Say “list” to see the numbers.`);
    case 'nothing-named':
      return say('Which thing is that about? Say it again with its name or number.');
    case 'nothing-out':
      return say(
        refusal.supplier === null
          ? 'I don’t know which thing is meant: nothing that is out was named. Say it again with its name or number.'
          : `Nothing of this job is out with ${speaker.name(refusal.supplier)}. Say it again with the thing’s name or number and I’ll take it down.`,
      );
    case 'gate-blocked': {
      const blockers = blockersOf(told.state, refusal.gate, rulesOf(told));
      const [first] = blockers;
      const why = first
        ? ` ${capital(blockerLine(told.state, first, speaker))}${blockers.length > 1 ? `, and ${blockers.length - 1} more` : ''}.`
        : '';
      return say(
        `${capital(gateName(refusal.gate))} can’t be passed yet.${why}`,
        whatsInTheWay(told.job, refusal.gate),
      );
    }
    case 'gates-open':
      return say(
        `It can’t be handed over yet: ${joined(refusal.gates.map(gateName))} still to pass.`,
        ...refusal.gates.slice(0, 1).map((gate) => whatsInTheWay(told.job, gate)),
      );
    case 'gate-passed':
      return say(`${capital(gateName(refusal.gate))} is passed already; nothing more to do there.`);
    case 'loop':
      return say(loop(told, refusal.steps, speaker));
    case 'no-job':
    case 'job-exists':
    case 'no-such-step':
    case 'no-such-check':
    case 'no-such-fault':
    case 'no-such-notice':
    case 'no-owner':
    case 'nothing-to-undo':
      return say(plainRefusal(refusal));
  }
}

type PlainRefusal = Extract<
  Refusal,
  {
    why:
      | 'no-job'
      | 'job-exists'
      | 'no-such-step'
      | 'no-such-check'
      | 'no-such-fault'
      | 'no-such-notice'
      | 'no-owner'
      | 'nothing-to-undo';
  }
>;

function plainRefusal(refusal: PlainRefusal): string {
  switch (refusal.why) {
    case 'no-job':
      return 'That job isn’t there. Say “machines” to see those that are in.';
    case 'job-exists':
      return 'That job is open already. Say “machines” to see it.';
    case 'no-such-step':
      return `There is no ${/^\d+$/.test(refusal.step) ? `step ${refusal.step}` : 'such step'} in the build order. Say “build order” to see the numbers.`;
    case 'no-such-check':
      return 'That check isn’t on this job’s list. Say “checks” to see it.';
    case 'no-such-fault':
      return `There is no fault ${refusal.fault} on this job. Say “what’s blocking the road test?” to see the open ones.`;
    case 'no-such-notice':
      return 'That notice is no longer there. Nothing to do: the next one comes when there is news.';
    case 'no-owner':
      return 'Nobody is down as the owner of this job. Say “owner”, then the name and the machine, and try again.';
    case 'nothing-to-undo':
      return 'There is nothing to undo there. Say what is wrong and I’ll put it right.';
  }
}

function whatsInTheWay(job: string, gate: Gate): Button {
  const question = { about: 'blocking' as const, gate, part: null, supplier: null };
  return { label: 'What’s in the way?', action: { do: 'answer-more', job, question, item: null } };
}

const BUTTONS_AT_MOST = 8;

function whichItem(told: Told, command: number, candidates: readonly number[], speaker: Speaker): Refused {
  const items = candidates.map((number) => told.state.items[number]).filter((item) => item !== undefined);
  const buttons = items.slice(0, BUTTONS_AT_MOST).flatMap(({ number, ...item }): Button[] => {
    const action = actionFor(told, command, number);
    return action ? [{ label: clipped(`${number} · ${thingName(item, speaker)}`, 40), action }] : [];
  });
  const part = items[0]?.part ?? 'one';
  const which = joined(items.map((item) => `${thingName(item, speaker)} (${item.number})`));
  const how =
    buttons.length > 0 ? 'Tap one, or say it again with the number.' : 'Say it again with the number.';
  return { line: `Which ${part}: ${which}? ${how}`, buttons };
}

/** The same thing said again with the number filled in. */
function actionFor({ said, job, message, commands }: Told, command: number, item: number): Action | null {
  const meant = commands[command];
  if (meant?.type === 'work-done') return { do: 'work-done', job, item };
  const reading = said?.reading.items[command];
  if (!said || !reading) return null;
  return {
    do: 'apply',
    job,
    message,
    messageId: said.messageId,
    reading: readingWith(said.reading, [
      { ...reading, item, unsure: reading.unsure.filter((field) => field !== 'item') },
    ]),
    attachments: meant ? [...attachmentsOf(meant)] : [],
    instead: false,
  };
}

function attachmentsOf(command: JobCommand) {
  return 'attachments' in command ? command.attachments : [];
}

function loop({ state }: Told, steps: readonly string[], speaker: Speaker): string {
  const names = steps.map((id) => {
    const step = state.steps.find((each) => each.id === id);
    return step ? `“${stepName(step, speaker)}”` : 'a step';
  });
  return `That would go round in a ring: ${clipped(names.join(', then '), 600)}. Take one link away first, as in “step 9 not after 8”; “build order” shows the numbers.`;
}
