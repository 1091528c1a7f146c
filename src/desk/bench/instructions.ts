import type { Instruction } from '../../hearing/instructions/instruction.js';
import type { Answer } from '../../wording/answer.js';
import { helpText, nothingToUndo, whichJobFirst, wordForgotten, wordLearnt } from '../../wording/bench.js';
import { checksText, jobsText, listText, peopleText, stepsText } from '../../wording/lists.js';
import { todayOf } from '../calendars.js';
import type { Incoming } from '../desk.js';
import { howAreYou } from '../health.js';
import { speakerFor } from '../speaker.js';
import type { JobStanding } from '../store.js';
import type { Workplace } from '../workplace.js';
import type { Saying } from './carry-out.js';
import { benchContext } from './context.js';
import { correctLast } from './correct.js';
import { openNewJob, nameOnBench } from './job-opening.js';
import type { OfShop, OnJob } from './instruction-kinds.js';
import { isOfShop } from './instruction-kinds.js';
import type { Showing } from './job-commands.js';
import { commandFor } from './job-commands.js';
import { addSomebody, askToForget, inviteByName, notePhone } from './people-instructions.js';
import { setClosed, setRule, showRules } from './rules.js';
import { showFortnight, showTimeline } from '../pictures.js';
import { suppose } from './supposing.js';
import { tellJob } from './tell-job.js';
import { threadOf } from './threads.js';
import { undoMessage } from './undo.js';

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
    case 'note-phone':
      return notePhone(place, job, instruction);
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
    case 'health':
      return howAreYou(place, saying.at);
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
