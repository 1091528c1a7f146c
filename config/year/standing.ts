import { JOB } from '../../src/desk/folds.js';
import type { Item, JobState } from '../../src/job/state.js';
import { readState } from '../../src/record/index.js';
import type { ShopRecord } from '../../src/record/types.js';
import { lexicon } from '../../src/trade/lexicon/load.js';
import type { JobRun } from './job-run.js';

/** How a machine of the play stands in the record; null where it is not there. */
export async function standingOf(record: ShopRecord, { title }: JobRun): Promise<JobState | null> {
  for (const stream of await record.streams()) {
    if (!stream.startsWith('job-')) continue;
    const { state } = await readState(record, stream, JOB);
    if (state.title === title) return state;
  }
  return null;
}

const PLACES = ['front', 'rear', 'left', 'right'];

/** The trade's term for a part as said, without its place: 'rear brake shoes' is 'brake shoe'. */
export function termOf(said: string): string {
  const bare = PLACES.reduce((words, place) => words.replace(new RegExp(`^${place} `), ''), said);
  const one = bare.replace(/s$/, '');
  return (lexicon.byName(bare) ?? lexicon.byName(one))?.name ?? one;
}

/** The items of a job that a part's name as said stands for. */
export function itemsCalled({ items }: JobState, said: string): Item[] {
  const place = PLACES.find((each) => said.startsWith(`${each} `));
  const part = termOf(said);
  return Object.values(items).filter(
    (item) => item.part === part && (place === undefined || item.place.some((each) => each === place)),
  );
}
