import type { Instruction } from '../../hearing/instructions/instruction.js';
import type { JobCommand, Target } from '../../job/commands.js';
import { buildOf } from '../../job/build-order.js';
import type { JobState } from '../../job/state.js';
import type { Answer } from '../../wording/answer.js';
import {
  helpText,
  noSuchFault,
  nothingToUndo,
  whichJobFirst,
  wordForgotten,
  wordLearnt,
} from '../../wording/bench.js';
import { checksText, jobsText, listText, noSuchCheck, peopleText, stepsText } from '../../wording/lists.js';
import { todayOf } from '../calendars.js';
import type { Incoming } from '../desk.js';
import { speakerFor } from '../speaker.js';
import type { JobStanding } from '../store.js';
import type { Workplace } from '../workplace.js';
import type { Saying } from './carry-out.js';
import { benchContext } from './context.js';
import { correctLast } from './correct.js';
import { openNewJob, nameOnBench } from './job-opening.js';
import { addSomebody, askToForget, inviteByName } from './people-instructions.js';
import { setClosed, setRule, showRules } from './rules.js';
import { showFortnight, showTimeline } from '../pictures.js';
import { suppose } from './supposing.js';
import { tellJob } from './tell-job.js';
import { threadOf } from './threads.js';
import { undoMessage } from './undo.js';

/** Instructions that concern the shop or no job yet; all others are about the job on the bench. */
const OF_THE_SHOP = [
  'open-job',
  'put-on-bench',
  'add-person',
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
] as const satisfies readonly Instruction['kind'][];
type OfShop = Extract<Instruction, { kind: (typeof OF_THE_SHOP)[number] }>;
type OnJob = Exclude<Instruction, OfShop>;

function isOfShop(instruction: Instruction): instruction is OfShop {
  return OF_THE_SHOP.some((kind) => kind === instruction.kind);
}

/** Does what the mechanic asked, as against what they told or wanted to know. */
export async function obey(
  place: Workplace,
  saying: Saying,
  job: string | null,
  instruction: Instruction,
  message: Incoming,
): Promise<Answer> {
  if (isOfShop(instruction)) return obeyInShop(place, saying, job, instruction, message);
  return job === null
    ? whichJobFirst((await place.store.shop()).state.jobs)
    : obeyOnJob(place, saying, job, instruction);
}

async function obeyInShop(
  place: Workplace,
  saying: Saying,
  job: string | null,
  instruction: OfShop,
  message: Incoming,
): Promise<Answer> {
  switch (instruction.kind) {
    case 'open-job':
      return openNewJob(place, saying, instruction);
    case 'put-on-bench':
      return nameOnBench(place, saying, instruction.machine);
    case 'add-person':
      return addSomebody(place, saying, instruction);
    case 'invite':
      return inviteByName(place, saying, instruction.name);
    case 'forget':
      return askToForget(place, instruction.name);
    case 'undo':
      return undoLast(place, saying, message);
    case 'correct':
      return correctLast(place, saying, instruction.words, message);
    case 'show-rules':
      return showRules(place);
    case 'set-rule':
      return setRule(place, saying, instruction);
    case 'closed':
      return setClosed(place, saying, instruction);
    case 'learn-word':
      await toShop(place, saying, { type: 'learn-word', said: instruction.said, part: instruction.part });
      return wordLearnt(instruction.said, instruction.part);
    case 'unlearn-word':
      await toShop(place, saying, { type: 'unlearn-word', said: instruction.said });
      return wordForgotten(instruction.said);
    case 'show-jobs': {
      const { state } = await place.store.shop();
      return jobsText(
        await Promise.all(state.jobs.filter(({ open }) => open).map(({ id }) => place.store.job(id))),
      );
    }
    case 'show-people': {
      const [{ state }, people] = await Promise.all([place.store.shop(), place.deps.record.people.all()]);
      return peopleText(state, people);
    }
    case 'help':
      return helpText();
    case 'suppose':
      return suppose(place, job, instruction, saying.at);
    case 'show-fortnight':
      return showFortnight(place, saying.at);
  }
}

async function toShop(
  place: Workplace,
  saying: Saying,
  command: Parameters<Workplace['store']['toShop']>[1],
): Promise<void> {
  await place.store.toShop({ commandId: `${saying.key}-shop`, at: saying.at, by: saying.person }, command);
}

/** The message answered is undone, else the last that changed something. */
async function undoLast(place: Workplace, saying: Saying, { replyTo, chatId }: Incoming): Promise<Answer> {
  const { record } = place.deps;
  const replied = replyTo === null ? null : await threadOf(record, chatId, replyTo);
  const { lastMessage } = await benchContext(record, saying.person);
  const thread = replied ?? (lastMessage ? { jobs: [lastMessage.job], message: lastMessage.message } : null);
  if (!thread) return nothingToUndo();
  return undoMessage(place, thread.jobs, thread.message, {
    commandId: `${saying.key}-undo`,
    at: saying.at,
    by: saying.person,
  });
}

async function obeyOnJob(place: Workplace, saying: Saying, job: string, instruction: OnJob): Promise<Answer> {
  const standing = await place.store.job(job);
  const text = `${saying.key}-text`;
  const found = commandFor(instruction, standing.state, text);
  if ('show' in found) return show(place, saying, standing, found.show);
  if ('answer' in found) return found.answer;
  const { key, at, person: by, message } = saying;
  const words =
    instruction.kind === 'find-fault'
      ? instruction.text
      : instruction.kind === 'add-step'
        ? instruction.name
        : saying.text;
  return tellJob(place, job, { key, at, by, message, texts: { [text]: words } }, ...found.commands);
}

type Showing = 'steps' | 'checks' | 'list' | 'timeline';

async function show(place: Workplace, saying: Saying, standing: JobStanding, what: Showing): Promise<Answer> {
  const [{ policy }, people] = await Promise.all([place.store.shop(), place.deps.record.people.all()]);
  const speaker = speakerFor(todayOf(policy, saying.at), policy, people, standing.texts);
  switch (what) {
    case 'steps':
      return stepsText(standing, speaker);
    case 'checks':
      return checksText(standing, speaker);
    case 'list':
      return listText(standing, policy, speaker);
    case 'timeline':
      return showTimeline(place, standing.id, saying.at);
  }
}

function commandFor(
  instruction: OnJob,
  state: JobState,
  text: string,
): { commands: JobCommand[] } | { show: Showing } | { answer: Answer } {
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

type StepInstruction = Extract<
  OnJob,
  { kind: 'add-step' | 'drop-step' | 'link-step' | 'time-step' | 'fit-step' | 'undo-step' }
>;

/** Steps are spoken of by their place in the build order as it is shown. */
function stepCommand(instruction: StepInstruction, state: JobState, text: string): JobCommand {
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

/** What an owner is asked about where nothing is named: all that is decided, costs something, and was not asked before. */
function worthAsking(state: JobState): number[] {
  return Object.values(state.items)
    .filter(
      ({ agreement, remedy, cost, fitted }) =>
        agreement.status === 'not-asked' && remedy !== null && cost !== null && !fitted,
    )
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
