import type { Action, Answer } from '../wording/answer.js';
import { explainChange, notYours, onBench, wordForgotten } from '../wording/bench.js';
import { answerToReading } from './bench/receive.js';
import type { Saying } from './bench/carry-out.js';
import { remember } from './bench/context.js';
import { answerQuestion } from './bench/questions.js';
import { tellJob } from './bench/tell-job.js';
import { undoMessage } from './bench/undo.js';
import { forgetPerson } from './forget.js';
import { invite, settleGuest } from './invitations.js';
import { finishOnce } from './once.js';
import { ownerTaps } from './owner.js';
import { showTimeline } from './pictures.js';
import { supplierTaps } from './supplier.js';
import type { Workplace } from './workplace.js';

export type Press = { key: string; person: string; chatId: number; at: number; action: Action };

/** A button pressed by someone known. What they may press is looked at again, whenever the button was made. */
export async function press(place: Workplace, pressed: Press): Promise<Answer> {
  const { state: shop } = await place.store.shop();
  const presser = shop.people[pressed.person];
  if (!presser || presser.forgotten) return notYours();
  const { roles } = presser;
  const { action } = pressed;
  if (action.do === 'owner-answer') {
    const theirs = shop.jobs.some((job) => job.id === action.job && job.owner === pressed.person);
    return theirs ? ownerTaps(place, pressed, action.job, action.items, action.outcome) : notYours();
  }
  if (action.do === 'supplier-says') return supplierTaps(place, pressed, action.lines, action.says);
  if (!roles.includes('mechanic')) return notYours();
  return finishOnce(place, pressed.key, () => mechanicPresses(place, pressed, action));
}

type MechanicAction = Exclude<Action, { do: 'owner-answer' | 'supplier-says' }>;

async function mechanicPresses(place: Workplace, pressed: Press, action: MechanicAction): Promise<Answer> {
  const { key, person, at } = pressed;
  const when = { key, by: person, at };
  switch (action.do) {
    case 'undo':
      return undoMessage(place, [action.job], action.message, { commandId: `${key}-undo`, at, by: person });
    case 'explain-change':
      return explainChange();
    case 'apply':
      return applyReading(place, pressed, action);
    case 'put-on-bench':
      return putOnBench(place, person, action.job);
    case 'answer-more':
      return answerQuestion(place, { ...action, full: true, container: null }, { at, person });
    case 'pass-gate':
      return tellJob(place, action.job, when, { type: 'pass-gate', gate: action.gate });
    case 'release-notice':
      return tellJob(place, action.job, when, {
        type: 'settle-notice',
        notice: action.notice,
        release: true,
      });
    case 'drop-notice':
      return tellJob(place, action.job, when, {
        type: 'settle-notice',
        notice: action.notice,
        release: false,
      });
    case 'ask-owner':
      return tellJob(place, action.job, when, { type: 'ask-yes', items: action.items });
    case 'work-done':
      return tellJob(place, action.job, when, {
        type: 'work-done',
        target: { item: action.item, part: null, called: null, place: [], count: null },
      });
    case 'fit-step':
      return tellJob(place, action.job, when, { type: 'fit-step', step: action.step });
    case 'do-check':
      return tellJob(place, action.job, when, { type: 'do-check', check: action.check, text: null });
    case 'clear-fault':
      return tellJob(place, action.job, when, { type: 'clear-fault', fault: action.fault });
    case 'show-photos':
      return answerQuestion(
        place,
        {
          ...{ job: action.job, item: action.item, full: true, container: null },
          question: { about: 'photos', gate: null, part: null, supplier: null },
        },
        { at, person },
      );
    case 'show-timeline':
      return showTimeline(place, action.job, at);
    case 'invite':
      return invite(place, action.person, action.role, when);
    case 'settle-guest':
      return settleGuest(place, action.invitation, action.welcome, { ...when, key: `${key}-guest` });
    case 'forget':
      return forgetPerson(place, action.person, when);
    case 'unlearn':
      return unlearn(place, action.said, when);
  }
}

async function unlearn(
  place: Workplace,
  said: string,
  when: { key: string; by: string; at: number },
): Promise<Answer> {
  await place.store.toShop({ commandId: when.key, at: when.at, by: when.by }, { type: 'unlearn-word', said });
  return wordForgotten(said);
}

async function applyReading(
  place: Workplace,
  pressed: Press,
  action: Extract<Action, { do: 'apply' }>,
): Promise<Answer> {
  const { key, person, at, chatId } = pressed;
  if (action.instead) {
    await undoMessage(place, [action.job], action.message, { commandId: `${key}-instead`, at, by: person });
  }
  const { messageId, attachments } = action;
  const saying: Saying = {
    key,
    person,
    message: action.message,
    messageId,
    at,
    text: action.reading.text,
    attachments,
  };
  return answerToReading(place, saying, action.job, null, action.reading, chatId);
}

/** Says which job talk is about from now on. */
export async function putOnBench(place: Workplace, person: string, job: string): Promise<Answer> {
  await remember(place.deps.record, person, { bench: job });
  const { state } = await place.store.job(job);
  return onBench(state.title);
}
