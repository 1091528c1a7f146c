import { isSaid } from '../../job/messages-said.js';
import type { Answer } from '../../wording/answer.js';
import { nothingToUndo, undone } from '../../wording/bench.js';
import { todayOf } from '../calendars.js';
import { speakerFor } from '../speaker.js';
import type { JobStanding } from '../store.js';
import type { Workplace } from '../workplace.js';
import { afterwards } from './tell-job.js';

type When = { commandId: string; at: number; by: string };

/** Takes back what a message said of a job, and lets the gates follow. */
export async function undoIn(
  place: Workplace,
  job: string,
  message: string,
  when: When,
): Promise<JobStanding> {
  const { before } = await place.store.toJob(job, when, [{ type: 'undo', message }]);
  const commandId = `${when.commandId}-settle`;
  const settled = await place.store.toJob(job, { ...when, commandId }, [{ type: 'settle' }]);
  await afterwards(place, settled, { ...when, key: commandId });
  if (before.status === 'handed-over' && settled.state.status === 'open') {
    await place.store.toShop({ ...when, commandId: `${when.commandId}-back` }, { type: 'reopen-job', job });
  }
  return settled;
}

/** Takes a message back in every job given that it said something of; says what was undone. */
export async function undoMessage(
  place: Workplace,
  jobs: readonly string[],
  message: string,
  when: When,
): Promise<Answer> {
  const undoneIn: JobStanding[] = [];
  for (const job of jobs) {
    const { state } = await place.store.job(job);
    if (isSaid(state.messages, message))
      undoneIn.push(await undoIn(place, job, message, { ...when, commandId: `${when.commandId}-${job}` }));
  }
  if (undoneIn.length === 0) return nothingToUndo();
  const [{ policy }, people] = await Promise.all([place.store.shop(), place.deps.record.people.all()]);
  const speaker = speakerFor(todayOf(policy, when.at), policy, people, ...undoneIn.map(({ texts }) => texts));
  return undone(
    undoneIn.map(({ state }) => state),
    speaker,
  );
}
