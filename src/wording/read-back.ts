import type { Gate } from '../trade/terms.js';
import type { Answer, Button, Speaker } from './answer.js';
import { textOf } from './answer.js';
import type { Line } from './lines.js';
import { bold, cutToFit, joined, listed, message } from './lines.js';
import { byItem, itemsWantingYes } from './read-back/by-item.js';
import { itemLines } from './read-back/item-lines.js';
import { jobLines } from './read-back/job-lines.js';
import { refusedWords } from './read-back/refusals.js';
import { gatesOffered, remarks } from './read-back/remarks.js';
import type { Told } from './read-back/told.js';
import { takenAs } from './read-back/taken-as.js';
import { unsureQuestion } from './read-back/unsure.js';
import { passButton } from './passing.js';
import { gateName } from './terms.js';

export type { Told } from './read-back/told.js';

const ITEMS_AT_MOST = 20;

/**
 * What was understood and recorded of one job, and no more, one line a thing; what follows from it; what could not be
 * done and why; one question at most. Buttons undo it, change it, and do what is now open to be done.
 */
export function sayBack(told: Told, speaker: Speaker): Answer {
  const { state, job, refused } = told;
  const recorded = told.events.length > 0;
  const refusals = refused.map(({ command, refusal }) => refusedWords(told, command, refusal, speaker));
  const asking = refusals.find(({ buttons }) => buttons.length > 0);
  const unsure = asking ? null : unsureQuestion(told, speaker);
  const taken = recorded ? takenAs(told) : null;
  const offered = gatesOffered(told, speaker);
  const lines: Line[] = [
    ...heading(told),
    ...listed(itemLines(told, speaker), ITEMS_AT_MOST),
    ...jobLines(told, speaker),
    ...remarks(told, speaker),
    ...(recorded || refused.length > 0 ? [] : ['Nothing new in that: I have it so already.']),
    ...refusals.map(({ line }) => line),
    ...(taken === null ? [] : [taken]),
    ...(unsure ? [unsure.line] : []),
    ...nothingInTheWay(offered),
  ];
  const buttons: Button[][] = [
    ...rows(asking?.buttons ?? unsure?.buttons ?? []),
    undoAndChange(told),
    askOwner(told),
    ...offered.map((gate) => [passButton(job, gate)]),
  ];
  const item = [...byItem({ state, events: told.events }).keys()].at(-1) ?? null;
  const words = lines.length > 0 ? lines : ['Noted.'];
  return { ...message(words, buttons), thread: { jobs: [job], message: told.message, item } };
}

function nothingInTheWay(offered: readonly Gate[]): Line[] {
  const names = offered.filter((gate) => gate !== 'stripped').map((gate) => `“${gateName(gate)}”`);
  return names.length === 0 ? [] : [`Nothing is left in the way of ${joined(names)}.`];
}

/** The job's name stands above where more than one is open. */
function heading({ state, jobs }: Told): Line[] {
  return jobs.filter(({ open }) => open).length > 1 ? [[bold(state.title)]] : [];
}

/** A notice let go can't be called back, and only what was read can be put in other words. */
function undoAndChange({ job, message: id, events, said }: Told): Button[] {
  if (!events.some(({ type }) => !LETTING_GO.includes(type))) return [];
  const undo: Button = { label: 'Undo', action: { do: 'undo', job, message: id } };
  return said === null
    ? [undo]
    : [undo, { label: 'Change', action: { do: 'explain-change', job, message: id } }];
}

const LETTING_GO: readonly string[] = ['notice-released', 'notice-dropped'];

function askOwner(told: Told): Button[] {
  const items = itemsWantingYes(told).filter(({ agreement }) => agreement.status !== 'asked');
  const numbers = items.map(({ number }) => number);
  return numbers.length === 0
    ? []
    : [{ label: 'Ask the owner', action: { do: 'ask-owner', job: told.job, items: numbers } }];
}

/** Short choices share a row; long ones have one each. */
function rows(buttons: readonly Button[]): Button[][] {
  const short = buttons.length <= 3 && buttons.every(({ label }) => label.length <= 16);
  return short ? [[...buttons]] : buttons.map((button) => [button]);
}

/** Several answers as one, an empty line between them. Undoing buttons of several jobs bear the job's name. */
export function mergeAnswers(answers: readonly Answer[]): Answer {
  const [only, ...more] = answers.filter(isSomething);
  if (!only) return { text: [], buttons: [] };
  if (more.length === 0) return only;
  const all = [only, ...more];
  const undoing = all.filter(({ buttons }) => buttons.some((row) => row.some(isUndo))).length;
  const photos = all.flatMap((answer) => answer.photos ?? []);
  const voices = all.flatMap((answer) => answer.voices ?? []);
  return cutToFit({
    text: all.flatMap(({ text }, index) => (index === 0 ? text : ['\n\n', ...text])),
    buttons: all.flatMap((answer) => (undoing > 1 ? withJobNames(answer) : answer.buttons)),
    ...(only.thread ? { thread: only.thread } : {}),
    ...(photos.length > 0 ? { photos } : {}),
    ...(voices.length > 0 ? { voices } : {}),
  });
}

function isSomething(answer: Answer): boolean {
  return textOf(answer) !== '' || (answer.photos ?? []).length > 0 || (answer.voices ?? []).length > 0;
}

const isUndo = ({ action }: Button): boolean => action.do === 'undo' || action.do === 'explain-change';

function withJobNames({ text, buttons }: Answer): Answer['buttons'] {
  const first = text.find((passage) => typeof passage !== 'string');
  const name = typeof first === 'object' ? first.bold : '';
  return buttons.map((row) =>
    row.map((button) =>
      isUndo(button) && name !== '' ? { ...button, label: `${button.label}: ${name}` } : button,
    ),
  );
}
