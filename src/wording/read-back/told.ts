import type { Reading } from '../../hearing/reading.js';
import type { JobCommand, Refusal } from '../../job/commands.js';
import type { Attachment } from '../../job/events.js';
import type { RecordedJobEvent } from '../../job/evolve.js';
import type { JobRules } from '../../job/needs.js';
import type { JobState } from '../../job/state.js';
import type { Policy } from '../../shop/policy.js';
import type { JobEntry } from '../../shop/state.js';

/** What came of something said of one job. */
export type Told = {
  job: string;
  before: JobState;
  state: JobState;
  events: readonly RecordedJobEvent[];
  commands: readonly JobCommand[];
  refused: readonly { command: number; refusal: Refusal }[];
  /** The message's id in the record: what an undo names. */
  message: string;
  /** What was read, each item beside the command it came to; null for a button or an instruction. */
  said: { reading: Reading; messageId: number; attachments: readonly Attachment[] } | null;
  policy: Policy;
  jobs: readonly JobEntry[];
};

export const rulesOf = ({ policy }: Pick<Told, 'policy'>): JobRules => ({
  ownerYesFrom: policy.owner.yesFrom,
});
