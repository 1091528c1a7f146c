import { buildOf } from '../job/build-order.js';
import { nextGate, onOffer } from '../job/gates.js';
import type { Item, JobState } from '../job/state.js';
import { isOut } from '../job/state.js';
import type { Policy } from '../shop/policy.js';
import type { Role } from '../shop/events.js';
import type { ShopState } from '../shop/state.js';
import type { Answer, Button, Job, Speaker } from './answer.js';
import { plain } from './answer.js';
import { benchHours } from './figures.js';
import { decisionWords, findingWords, whereabouts } from './item-words.js';
import type { Line } from './lines.js';
import { bold, clipped, counted, joined, message } from './lines.js';
import { passButton } from './passing.js';
import { doing, gateName } from './terms.js';
import { stepName, thingName } from './things.js';

/** The machines in the shop, each with where it stands, and buttons to put one on the bench. */
export function jobsText(jobs: readonly Job[]): Answer {
  if (jobs.length === 0)
    return plain(
      'No machine is in. Start with, for example, “new job: Ketterby 500 single, owner Mrs Dale”.',
    );
  return message(
    jobs.map(({ state }): Line => [bold(state.title), `: ${standing(state)}`]),
    jobs
      .slice(0, 12)
      .map(({ id, state }): Button[] => [
        { label: `${clipped(state.title, 30)} on the bench`, action: { do: 'put-on-bench', job: id } },
      ]),
  );
}

function standing(state: JobState): string {
  const gate = nextGate(state);
  const items = Object.values(state.items);
  const out = Object.values(state.lines).filter(isOut);
  return [
    gate === null ? 'all gates passed, to be handed over' : `next ${gateName(gate)}`,
    counted(items.length, 'thing', 'things') + ' listed',
    ...(out.length > 0 ? [`${out.length} out or on order`] : []),
  ].join(', ');
}

/** The strip list by number: what was found, what is decided, where it is. */
export function listText({ id, state }: Job, policy: Policy, speaker: Speaker): Answer {
  const items = Object.values(state.items);
  if (items.length === 0)
    return plain(
      `Nothing is on ${state.title}’s list yet. Say what you take off or find, as in “dynamo off, box 3”.`,
    );
  const offered = onOffer(state, { ownerYesFrom: policy.owner.yesFrom });
  return message(
    [[bold(state.title)], ...items.map((item) => itemRow(state, item, speaker))],
    offered.map((gate) => [passButton(id, gate)]),
  );
}

function itemRow(state: JobState, item: Item, speaker: Speaker): string {
  const seen = item.findings.at(-1);
  const parts = [
    seen ? findingWords({ ...seen, attachments: [] }) : '',
    decisionWords(item),
    whereabouts(state, item, speaker),
  ];
  return `${item.number} · ${thingName(item, speaker)}: ${parts.filter((part) => part !== '').join('; ')}`;
}

/** The build order by number, as steps are spoken of, with a tick at those done and buttons for those that can be done now. */
export function stepsText({ id, state }: Job, speaker: Speaker): Answer {
  const { steps } = buildOf(state);
  if (steps.length === 0)
    return plain(
      `${state.title} has no build order. Add a step with, for example, “new step: fit the damper, 1 hour”.`,
    );
  const open = new Set(steps.filter(({ fitted }) => !fitted).map((step) => step.id));
  const hours = steps.filter(({ fitted }) => !fitted).reduce((sum, step) => sum + step.hours, 0);
  const numbers = new Map(steps.map((step, index) => [step.id, index + 1]));
  const rows = steps.map((step, index): Line => {
    const after = step.after.filter((each) => open.has(each)).map((each) => numbers.get(each) ?? 0);
    const waits =
      after.length > 0 && !step.fitted ? `, after ${joined(after.sort((a, b) => a - b).map(String))}` : '';
    const name = stepName(step, speaker);
    return step.fitted ? `${index + 1}. ✓ ${name}` : `${index + 1}. ${name} (${step.hours} h${waits})`;
  });
  const free = steps.filter((step) => !step.fitted && step.after.every((each) => !open.has(each)));
  return message(
    [
      [bold(`${state.title}: build order`)],
      open.size === 0
        ? 'All fitted.'
        : `${open.size} of ${steps.length} to go, about ${benchHours(hours)} at the bench.`,
      ...rows,
      'Change it with “step 9 after 8”, “step 9 takes 3 hours”, “drop step 9”, “new step: …, after 14”.',
    ],
    free.slice(0, 4).map((step): Button[] => [
      {
        label: clipped(`Done: ${stepName(step, speaker)}`, 40),
        action: { do: 'fit-step', job: id, step: step.id },
      },
    ]),
  );
}

/** The setting-up checks by number, as they are spoken of, with buttons for those still to do. */
export function checksText({ id, state }: Job, _speaker: Speaker): Answer {
  const { checks } = state;
  const open = checks.filter(({ doneAt }) => doneAt === null);
  if (checks.length === 0)
    return plain(`${state.title} has no list of checks. Say what you find and it is kept.`);
  return message(
    [
      [bold(`${state.title}: setting up`)],
      open.length === 0 ? 'All done.' : `${open.length} of ${checks.length} still to do.`,
      ...checks.map(({ name, doneAt }, index) => `${index + 1}. ${doneAt === null ? '' : '✓ '}${name}`),
    ],
    open
      .slice(0, 8)
      .map(({ id: check, name }): Button[] => [
        { label: clipped(`Done: ${name}`, 40), action: { do: 'do-check', job: id, check } },
      ]),
  );
}

export function noSuchCheck(words: string): Answer {
  return plain(
    `No check goes by “${clipped(words, 60)}”. Say “checks” to see them and tap the one that’s done.`,
  );
}

type Known = { id: string; name: string; phone?: string | undefined; chatId?: number | undefined };

/** Everyone the shop knows, by part: name, work, number, and whether they are in the chat. */
export function peopleText(shop: ShopState, people: readonly Known[]): Answer {
  const groups: (readonly [Role, string])[] = [
    ['supplier', 'Suppliers'],
    ['owner', 'Owners'],
    ['mechanic', 'Mechanics'],
  ];
  const lines = groups.flatMap(([role, heading]): Line[] => {
    const rows = people.flatMap((person) => {
      const known = shop.people[person.id];
      if (known === undefined || known.forgotten || !known.roles.includes(role)) return [];
      const work = role === 'supplier' && known.processes.length > 0 ? doing(known.processes) : '';
      const machines =
        role === 'owner'
          ? joined(
              shop.jobs.filter(({ owner, open }) => open && owner === person.id).map(({ title }) => title),
            )
          : '';
      const chat = person.chatId === undefined ? 'not in the chat' : '';
      return [
        [person.name, work, machines, person.phone ?? '', chat].filter((part) => part !== '').join(', '),
      ];
    });
    return rows.length === 0 ? [] : [[bold(heading)], ...rows];
  });
  if (lines.length === 0)
    return plain('Nobody yet. Add somebody, as in “supplier Harl & Dunn, chrome, 01632 960123”.');
  return message([...lines, 'To bring somebody into the chat: “invite”, then the name.']);
}
