import type { Question } from '../../hearing/reading.js';
import type { JobRules } from '../../job/needs.js';
import type { Item, JobState } from '../../job/state.js';
import type { Policy } from '../../shop/policy.js';
import type { Answer, Button, Job } from '../answer.js';
import type { Line } from '../lines.js';
import type { ModelFault } from '../../plan/model.js';
import type { JobPlan } from '../plan.js';
import type { Today } from './today.js';

/** A question with what it was settled to mean. */
export type Ask = {
  question: Question;
  /** The item asked about by its number. */
  item: number | null;
  /** The bag, box or shelf asked about. */
  container: string | null;
  /** The suppliers who could be meant, by id. */
  suppliers: readonly string[];
  jobs: readonly Job[];
  policy: Policy;
  /** What is forecast of each job, where the question is about what is to come. */
  plans: ReadonlyMap<string, JobPlan>;
  /** Why jobs that were to be forecast have no plan. */
  faults: ReadonlyMap<string, ModelFault>;
  /** The shop's plan as whoever asks sees it, where they ask what to do next. */
  today: Today | null;
  /** Whether all is wanted, not only the short answer. */
  full: boolean;
};

/** What is answered: the most useful line first. `more`: there is more to say than these lines, whatever their number. */
export type Reply = {
  lines: Line[];
  more?: boolean;
  buttons?: Button[][];
  photos?: NonNullable<Answer['photos']>;
  voices?: NonNullable<Answer['voices']>;
};

export const rulesOf = ({ policy }: Pick<Ask, 'policy'>): JobRules => ({
  ownerYesFrom: policy.owner.yesFrom,
});

/** The items of a job that a question names, by number or part; none where it names nothing. */
export function itemsAsked(state: JobState, { item, question }: Pick<Ask, 'item' | 'question'>): Item[] {
  if (item !== null) {
    const found = state.items[item];
    return found ? [found] : [];
  }
  const { part } = question;
  return part === null ? [] : Object.values(state.items).filter((each) => each.part === part);
}

export const namesItem = ({ item, question }: Pick<Ask, 'item' | 'question'>): boolean =>
  item !== null || question.part !== null;

/** What is said where the thing asked about is on no list. */
export function notListed({ item, question, jobs }: Ask): Reply {
  const what = item === null ? `No ${question.part ?? 'such thing'}` : `No number ${item}`;
  const where = jobs.length === 1 ? `${jobs[0]?.state.title ?? 'the'}’s list` : 'any list';
  return { lines: [`${what} is on ${where}. Say “list” to see what is.`] };
}
