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

/** The items of a job that a part's name as said stands for. */
export function itemsCalled({ items }: JobState, said: string): Item[] {
  const place = ['front', 'rear', 'left', 'right'].find((each) => said.startsWith(`${each} `));
  const bare = place === undefined ? said : said.slice(place.length + 1);
  const part = lexicon.byName(bare)?.name ?? bare;
  return Object.values(items).filter(
    (item) => item.part === part && (place === undefined || item.place.some((each) => each === place)),
  );
}
