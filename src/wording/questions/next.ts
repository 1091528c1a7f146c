import type { Blocker } from '../../job/blockers.js';
import { blockersOf } from '../../job/blockers.js';
import { nextGate, onOffer } from '../../job/gates.js';
import type { JobState } from '../../job/state.js';
import { promiseOf } from '../../job/state.js';
import { isOverdue } from '../../shop/round-up.js';
import type { Gate } from '../../trade/terms.js';
import { GATES } from '../../trade/terms.js';
import type { Button, Job, Speaker } from '../answer.js';
import { blockerLine } from '../blocking.js';
import type { Line } from '../lines.js';
import { bold, capital, clipped } from '../lines.js';
import { holdsUp, outWhere, promiseWords } from '../outside.js';
import { passButton } from '../passing.js';
import { gateName } from '../terms.js';
import { itemName, stepName } from '../things.js';
import type { Ask, Reply } from './ask.js';
import { rulesOf } from './ask.js';

/** What can be done next: whom to ring first, then what the hands can do, in build order. */
export function next(ask: Ask, speaker: Speaker): Reply {
  const several = ask.jobs.length > 1;
  const replies = ask.jobs.map((job) => nextOn(ask, job, speaker));
  if (!several) return replies[0] ?? { lines: [] };
  const first = replies.flatMap(({ lines }) => lines.slice(0, 2));
  return {
    lines: ask.full ? replies.flatMap(({ lines }) => lines) : first,
    more: replies.some(({ lines }) => lines.length > 2),
  };
}

function nextOn(ask: Ask, { id, state }: Job, speaker: Speaker): Reply {
  const rules = rulesOf(ask);
  const gate = nextGate(state);
  const head: Line = [
    bold(state.title),
    gate === null ? ': hand it over.' : `: next to pass, ${gateName(gate)}.`,
  ];
  const blockers = openGates(state).flatMap((each) => blockersOf(state, each, rules));
  const doable = unique(blockers.filter(isDoable));
  const steps = doable.filter(({ kind }) => kind === 'to-fit').slice(0, 2);
  const offered = onOffer(state, rules);
  const rows = [
    ...calls(state, speaker),
    ...doable.map((blocker) => `• ${capital(doableLine(state, blocker, speaker))}`),
  ];
  return {
    lines: rows.length > 0 ? [head, ...rows] : [head, waitingOnly(blockers)],
    buttons: [
      ...steps.map(({ step }) => fitButton(id, state, step ?? '', speaker)),
      ...offered.map((each) => [passButton(id, each)]),
    ],
  };
}

/** Gates overlap, but none is worked at before the machine is inspected, nor ridden before it is built. */
function openGates(state: JobState): Gate[] {
  const open = GATES.filter((gate) => !state.gates[gate].passed);
  if (!state.gates.inspected.passed) return open.filter((gate) => gate !== 'road-tested');
  return state.gates.reassembled.passed ? open : open.filter((gate) => gate !== 'road-tested');
}

function isDoable({ kind, holder }: Blocker): boolean {
  return holder.who === 'shop' && kind !== 'step-waits';
}

function unique(blockers: readonly Blocker[]): Blocker[] {
  const seen = new Set<string>();
  return blockers.filter(({ kind, item, step, fault, check }) => {
    const key = item === null ? `${kind}/${step ?? ''}/${fault ?? ''}/${check ?? ''}` : `item/${item}`;
    return seen.has(key) ? false : seen.add(key);
  });
}

/** A step that can be done now comes with what to watch at it. */
function doableLine(state: JobState, blocker: Blocker, speaker: Speaker): string {
  const step = state.steps.find(({ id }) => blocker.kind === 'to-fit' && id === blocker.step);
  if (!step) return blockerLine(state, blocker, speaker);
  return `${stepName(step, speaker)} (${step.hours} h)${step.watch === null ? '' : `. ${step.watch}`}`;
}

function calls(state: JobState, speaker: Speaker): string[] {
  return Object.values(state.lines)
    .filter((line) => isOverdue(line, speaker.today))
    .sort((a, b) => (promiseOf(a)?.due ?? '').localeCompare(promiseOf(b)?.due ?? ''))
    .flatMap((line) => {
      const item = state.items[line.item];
      if (!item) return [];
      const number = line.supplier === null ? null : speaker.phone(line.supplier);
      const held = holdsUp(state, item, speaker);
      const about = [`${outWhere(line, speaker)}, ${promiseWords(line, speaker)}`, held]
        .filter((part) => part !== '')
        .join('; ');
      return [`• ${number === null ? 'Chase' : `Ring ${number} about`} ${itemName(item, speaker)}: ${about}`];
    });
}

function waitingOnly(blockers: readonly Blocker[]): string {
  const owner = blockers.some(({ holder }) => holder.who === 'owner');
  const supplier = blockers.some(({ holder }) => holder.who === 'supplier');
  if (owner && supplier) return 'Nothing to do here: it waits for suppliers and for the owner’s answer.';
  if (owner) return 'Nothing to do here: it waits for the owner’s answer.';
  return supplier ? 'Nothing to do here: it waits for what is out.' : 'Nothing is in the way.';
}

/** A tap that says that a step is done; none where there is no such step. */
export function fitButton(job: string, state: JobState, step: string, speaker: Speaker): Button[] {
  const found = state.steps.find(({ id }) => id === step);
  return found
    ? [{ label: clipped(`Done: ${stepName(found, speaker)}`, 40), action: { do: 'fit-step', job, step } }]
    : [];
}
