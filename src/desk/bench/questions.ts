import type { Question } from '../../hearing/reading.js';
import type { Answer } from '../../wording/answer.js';
import { answerFor } from '../../wording/questions/answer-for.js';
import { whichJob } from '../../wording/bench.js';
import { todayOf } from '../calendars.js';
import { peopleMeant } from '../people.js';
import { plansOf } from '../planning.js';
import { speakerFor } from '../speaker.js';
import type { JobStanding } from '../store.js';
import type { Workplace } from '../workplace.js';

/** Questions that are asked of the whole shop where no machine is named. */
const SHOP_WIDE = ['overdue', 'holding', 'next'];

/**
 * Answers a question from the record: of one job, or of all open ones where it names none and means the shop.
 * `full` gives what the short answer left out.
 */
export async function answerQuestion(
  place: Workplace,
  job: string | null,
  question: Question,
  full: boolean,
  at: number,
  item: number | null = null,
): Promise<Answer> {
  const [{ state: shop, policy }, people] = await Promise.all([
    place.store.shop(),
    place.deps.record.people.all(),
  ]);
  const open = shop.jobs.filter((each) => each.open);
  if (job === null && !SHOP_WIDE.includes(question.about) && open.length !== 1)
    return whichJob(open, question);
  const ids = job === null ? open.map(({ id }) => id) : [job];
  const standings: JobStanding[] = await Promise.all(ids.map((id) => place.store.job(id)));
  const speaker = speakerFor(todayOf(policy, at), policy, people, ...standings.map(({ texts }) => texts));
  const suppliers =
    question.supplier === null ? [] : peopleMeant(question.supplier, shop, people, 'supplier');
  const plans = question.about === 'ready' ? await plansOf(place, standings, at) : new Map<string, never>();
  return answerFor({ question, item, suppliers, jobs: standings, policy, plans, full }, speaker);
}
