import type { Instruction } from '../../hearing/instructions/instruction.js';
import type { JobCommand } from '../../job/commands.js';
import type { Answer } from '../../wording/answer.js';
import { jobOpened, noSuchJob, titleTaken } from '../../wording/bench.js';
import { todayOf } from '../calendars.js';
import { addPerson, namesake, peopleMeant } from '../people.js';
import { putOnBench } from '../press.js';
import type { Workplace } from '../workplace.js';
import type { Saying } from './carry-out.js';
import { fetches } from './carry-out.js';
import { jobNamed } from './understand.js';

type Opening = Extract<Instruction, { kind: 'open-job' }>;

const TEMPLATES = { single: 'single-separate-gearbox', twin: 'unit-twin' } as const;

/** Opens a job with what it arrived as, and puts it on the bench. */
export async function openNewJob(place: Workplace, saying: Saying, opening: Opening): Promise<Answer> {
  const { key, at, person: by, message, attachments } = saying;
  const job = `k${key}`;
  const { state: shop, policy } = await place.store.shop();
  if (
    shop.jobs.some(
      ({ open, title, id }) => open && id !== job && title.toLowerCase() === opening.title.toLowerCase(),
    )
  ) {
    return titleTaken(opening.title);
  }
  const owner =
    opening.owner === null ? null : await ownerCalled(place, saying, opening.owner, opening.phone);
  const text = `${key}-text`;
  const command: JobCommand = {
    type: 'open-job',
    title: opening.title,
    model: null,
    template: TEMPLATES[opening.template ?? 'single'],
    owner,
    arrivedOn: todayOf(policy, at),
    arrival: { text, attachments },
    passed: opening.passed,
  };
  const change = {
    commandId: `${key}-open`,
    at,
    by,
    message,
    texts: { [text]: opening.about },
    effects: fetches(job, attachments),
  };
  const { state } = await place.store.toJob(job, change, [command]);
  await place.store.toShop(
    { commandId: `${key}-register`, at, by },
    { type: 'register-job', job, title: opening.title, owner },
  );
  await putOnBench(place, by, job);
  const contact = owner === null ? undefined : await place.deps.record.people.get(owner);
  return jobOpened(state, contact ?? null, opening.template === null);
}

async function ownerCalled(
  place: Workplace,
  saying: Saying,
  name: string,
  phone: string | null,
): Promise<string> {
  const [{ state: shop }, people] = await Promise.all([place.store.shop(), place.deps.record.people.all()]);
  const [known, ...others] = peopleMeant(name, shop, people, 'owner');
  const only = others.length === 0 ? known : undefined;
  if (only !== undefined && phone === null) return only;
  const id = only ?? namesake(name, shop, people) ?? `owner-${saying.key}`;
  const change = { commandId: `${saying.key}-owner`, at: saying.at, by: saying.person };
  await addPerson(
    place.deps,
    place.store,
    { id, name, role: 'owner', processes: [], trades: [], phone },
    change,
  );
  return id;
}

/** 'Working on the Ketterby': talk is about it from now on. */
export async function nameOnBench(place: Workplace, saying: Saying, machine: string): Promise<Answer> {
  const [{ state: shop }, people] = await Promise.all([place.store.shop(), place.deps.record.people.all()]);
  const job = jobNamed(shop.jobs, people, machine);
  return job === null ? noSuchJob(machine, shop.jobs) : putOnBench(place, saying.person, job);
}
