import type { Question } from '../../hearing/reading.js';
import type { JobState } from '../../job/state.js';
import type { Answer } from '../../wording/answer.js';
import { answerFor } from '../../wording/questions/answer-for.js';
import type { Ask } from '../../wording/questions/ask.js';
import { whichJob } from '../../wording/bench.js';
import { todayOf } from '../calendars.js';
import { peopleMeant } from '../people.js';
import { shopPlan } from '../bench-plan.js';
import { planAll } from '../planning.js';
import { speakerFor } from '../speaker.js';
import type { JobStanding } from '../store.js';
import type { Workplace } from '../workplace.js';

/** Questions that are asked of the whole shop where no machine is named. */
const SHOP_WIDE = ['overdue', 'holding', 'next'];

/** Questions that are about what is to come. */
const FORECAST = ['ready', 'overdue'];

const NUMBER =
  /(?<![£$€.\d]|\b(?:bag|box|tin|tray|shelf|drawer|step|fault|check|rule) )\b\d{1,3}\b(?![.:%]\d)/gi;

/** The item that a question means by its number ('where is 12?'); null where it names none of the list, or several. */
export function numberAsked(words: string, state: JobState): number | null {
  const [only, ...more] = [...words.matchAll(NUMBER)].map(([number]) => Number(number));
  return only !== undefined && more.length === 0 && state.items[only] ? only : null;
}

/** A question of one job, or of none where it means the shop. `full` asks for what the short answer left out. */
export type Asked = {
  job: string | null;
  question: Question;
  full: boolean;
  /** The thing of the list that is meant by its number, and the box that is meant. */
  item: number | null;
  container: string | null;
};

/** Answers a question from the record: of one job, or of all open ones where it names none and means the shop. */
export async function answerQuestion(
  place: Workplace,
  { job, question, full, item, container }: Asked,
  { at, person }: { at: number; person: string },
): Promise<Answer> {
  const [{ state: shop, policy }, people] = await Promise.all([
    place.store.shop(),
    place.deps.record.people.all(),
  ]);
  const open = shop.jobs.filter((each) => each.open);
  const isShopWide = SHOP_WIDE.includes(question.about) || container !== null;
  if (job === null && !isShopWide && open.length !== 1) return whichJob(open, question);
  const ids = job === null ? open.map(({ id }) => id) : [job];
  const standings: JobStanding[] = await Promise.all(ids.map((id) => place.store.job(id)));
  const speaker = speakerFor(todayOf(policy, at), policy, people, ...standings.map(({ texts }) => texts));
  const suppliers =
    question.supplier === null ? [] : peopleMeant(question.supplier, shop, people, 'supplier');
  const found = await planFor(place, job, question, standings, at, person);
  return answerFor(
    { question, item, container, suppliers, jobs: standings, policy, full, ...found },
    speaker,
  );
}

/** What the plan has to say to a question: of the shop to whoever asks what to do next, else of the jobs asked about. */
async function planFor(
  place: Workplace,
  job: string | null,
  { about }: Question,
  standings: readonly JobStanding[],
  at: number,
  person: string,
): Promise<Pick<Ask, 'plans' | 'faults' | 'today'>> {
  if (about === 'next' && job === null) {
    const { plans, faults, tasks, mechanics } = await shopPlan(place, at);
    const mine = mechanics.indexOf(person);
    const own = tasks.filter(({ mechanic }) => mechanic === person);
    return {
      plans,
      faults,
      today: mine < 0 ? null : { place: mine, mechanics: mechanics.length, tasks: own, faults },
    };
  }
  const found = FORECAST.includes(about)
    ? await planAll(place, standings, at)
    : { plans: new Map(), faults: new Map() };
  return { ...found, today: null };
}
