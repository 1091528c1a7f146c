import type { Instruction } from '../../hearing/instructions/instruction.js';
import { resolve } from '../../job/resolve.js';
import type { JobState } from '../../job/state.js';
import { lognormal } from '../../plan/lead-times/lead-time.js';
import type { PlanModel } from '../../plan/model.js';
import type { Change } from '../../plan/what-if.js';
import { whatIf } from '../../plan/what-if.js';
import { PARTS_LEAD_TIME } from '../../trade/processes.js';
import type { Answer } from '../../wording/answer.js';
import { mergeAnswers } from '../../wording/read-back.js';
import { noSuchPerson } from '../../wording/people.js';
import { faultText } from '../../wording/plan-faults.js';
import { nothingToSuppose, supposedText } from '../../wording/plan.js';
import { todayOf } from '../calendars.js';
import { peopleMeant } from '../people.js';
import { FORECASTING, planModels } from '../planning.js';
import { speakerFor } from '../speaker.js';
import type { JobStanding } from '../store.js';
import type { Workplace } from '../workplace.js';

export type Supposing = Extract<Instruction, { kind: 'suppose' }>;

/** What a supposition would move: of every open job that the supplier has things of, or of the job on the bench. */
export async function suppose(
  place: Workplace,
  job: string | null,
  supposing: Supposing,
  now: number,
): Promise<Answer> {
  const [{ state: shop, policy }, people] = await Promise.all([
    place.store.shop(),
    place.deps.record.people.all(),
  ]);
  const { supplier } = supposing;
  const suppliers = supplier === null ? [] : peopleMeant(supplier, shop, people, 'supplier');
  if (supplier !== null && suppliers.length === 0) return noSuchPerson(supplier);
  const ids =
    supplier === null && job !== null ? [job] : shop.jobs.filter(({ open }) => open).map(({ id }) => id);
  const standings = await Promise.all(ids.map((id) => place.store.job(id)));
  const models = await planModels(place, standings, now);
  const speaker = speakerFor(todayOf(policy, now), policy, people, ...standings.map(({ texts }) => texts));
  const answers = standings.flatMap((standing) => {
    const model = models.get(standing.id);
    const changes = model ? changesFor(supposing, suppliers, standing, model) : [];
    if (!model || changes.length === 0) return [];
    const moved = whatIf(model, changes, FORECASTING);
    if (moved.ok) return [supposedText(standing.state.title, moved, speaker)];
    // What isn't there or is done already moves nothing, and is said so.
    const { fault } = moved;
    return fault.kind === 'nothing-from' || fault.kind === 'done-already'
      ? []
      : [faultText(standing.state, fault, speaker)];
  });
  return answers.length > 0 ? mergeAnswers(answers) : nothingToSuppose();
}

function changesFor(
  supposing: Supposing,
  suppliers: readonly string[],
  { state }: JobStanding,
  model: PlanModel,
): Change[] {
  const { change } = supposing;
  if (supposing.supplier !== null) {
    const theirs = suppliers.filter((id) =>
      model.activities.some(({ supplier, finished }) => supplier === id && finished === null),
    );
    return 'by' in change
      ? theirs.map((supplier) => ({ kind: 'supplier-later', supplier, by: change.by }))
      : [];
  }
  const meant = itemMeant(supposing, state);
  if (meant === null) return [];
  const waited = model.activities.filter(
    ({ item, finished, kind }) => item === meant && finished === null && kind !== 'answer',
  );
  return waited.map(({ id, kind }) =>
    'by' in change
      ? { kind: 'later', id, by: kind === 'bench' ? change.by * BENCH_HOURS_A_DAY : change.by }
      : {
          kind: 'instead',
          id,
          activity: { kind: 'order', takes: lognormal(PARTS_LEAD_TIME.median, PARTS_LEAD_TIME.spread) },
        },
  );
}

/** A day's delay of work at the bench, in hours of it; common practice, no source. */
const BENCH_HOURS_A_DAY = 5;

function itemMeant({ item, part, place }: Supposing, state: JobState): number | null {
  const found = resolve(state, { item, part, called: null, place, count: null });
  if (found.kind === 'found') return found.item.number;
  return found.kind === 'several' ? (found.items[0]?.number ?? null) : null;
}
