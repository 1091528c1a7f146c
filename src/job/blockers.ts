import type { Gate, Process } from '../trade/terms.js';
import { buildOf } from './build-order.js';
import type { JobRules, Need } from './needs.js';
import { awaitsYes, needOf } from './needs.js';
import type { Fault, IsoDate, Item, JobState, Step } from './state.js';
import { promiseOf } from './state.js';

/** Who can clear a blocker. */
export type Holder = { who: 'shop' } | { who: 'owner' } | { who: 'supplier'; supplier: string | null };

export type BlockerKind =
  | 'nothing-listed'
  | 'unseen'
  | 'undecided'
  | 'owner-said-no'
  | 'check-again'
  | 'owner-yes'
  | 'not-ordered'
  | 'still-here'
  | 'send-again'
  | 'on-order'
  | 'out'
  | 'work-undone'
  | 'step-waits'
  | 'to-fit'
  | 'item-to-fit'
  | 'fault'
  | 'check-undone'
  | 'no-road-test'
  | 'road-test-failed';

/** One computed reason why a gate cannot be passed. */
export type Blocker = {
  kind: BlockerKind;
  holder: Holder;
  item: number | null;
  line: string | null;
  step: string | null;
  /** For 'step-waits': the unfitted steps before it. */
  behind: string[];
  fault: number | null;
  check: string | null;
  processes: Process[];
  /** Since when it holds, ms; null when that was never said. */
  since: number | null;
  /** The day promised, if one was. */
  due: IsoDate | null;
};

const SHOP: Holder = { who: 'shop' };
const OWNER: Holder = { who: 'owner' };

function blocker(kind: BlockerKind, holder: Holder, about: Partial<Blocker> = {}): Blocker {
  return {
    kind,
    holder,
    item: null,
    line: null,
    step: null,
    behind: [],
    fault: null,
    check: null,
    processes: [],
    since: null,
    due: null,
    ...about,
  };
}

/** What keeps a gate from being passed, in the order the mechanic would take it; empty when nothing does. */
export function blockersOf(state: JobState, gate: Gate, rules: JobRules): Blocker[] {
  const items = Object.values(state.items);
  switch (gate) {
    case 'stripped':
      return [];
    case 'inspected':
      if (items.length === 0 && !state.gates.inspected.passed) return [blocker('nothing-listed', SHOP)];
      return items.flatMap((item) => inspectionBlockers(state, item, rules));
    case 'parts-ordered':
      return items.flatMap((item) => orderBlockers(state, item, rules));
    case 'sublet-out':
      return items.flatMap((item) => subletBlockers(state, item, rules));
    case 'reassembled':
      return reassemblyBlockers(state, rules);
    case 'road-tested':
      return roadTestBlockers(state);
  }
}

function inspectionBlockers(state: JobState, item: Item, rules: JobRules): Blocker[] {
  const about = { item: item.number, since: item.listedAt };
  if (item.findings.length === 0 && item.remedy === null) return [blocker('unseen', SHOP, about)];
  const lastFinding = item.findings.at(-1)?.at ?? item.listedAt;
  if (item.remedy === null) return [blocker('undecided', SHOP, { ...about, since: lastFinding })];
  if (item.remedy === 'check') return [blocker('check-again', SHOP, { ...about, since: item.decidedAt })];
  if (item.fitted) return [];
  if (item.agreement.status === 'no') {
    return [blocker('owner-said-no', SHOP, { ...about, since: item.agreement.at })];
  }
  if (!awaitsYes(state, item, rules)) return [];
  const since = item.agreement.status === 'not-asked' ? item.decidedAt : item.agreement.at;
  return [blocker('owner-yes', OWNER, { ...about, since })];
}

function orderBlockers(state: JobState, item: Item, rules: JobRules): Blocker[] {
  if (item.remedy !== 'replace' || item.agreement.status === 'no') return [];
  const need = needOf(state, item, rules);
  if (need.kind !== 'order' && need.kind !== 'yes') return [];
  return [blocker('not-ordered', SHOP, { item: item.number, since: item.decidedAt })];
}

function subletBlockers(state: JobState, item: Item, rules: JobRules): Blocker[] {
  if (item.remedy !== 'send-out' || item.agreement.status === 'no') return [];
  const need = needOf(state, item, rules);
  if (need.kind === 'send') return [needBlocker(item, need)].filter((each) => each !== null);
  if (need.kind !== 'yes') return [];
  return [
    blocker('still-here', SHOP, { item: item.number, since: item.decidedAt, processes: item.processes }),
  ];
}

function needBlocker(item: Item, need: Need): Blocker | null {
  const about = { item: item.number, since: item.decidedAt ?? item.listedAt };
  switch (need.kind) {
    case 'nothing':
      return null;
    case 'look':
      return blocker('unseen', SHOP, about);
    case 'decide':
      return blocker(need.refused ? 'owner-said-no' : 'undecided', SHOP, about);
    case 'look-again':
      return blocker('check-again', SHOP, about);
    case 'yes':
      return blocker('owner-yes', OWNER, { ...about, since: need.since });
    case 'work':
      return blocker('work-undone', SHOP, { ...about, processes: item.processes });
    case 'order':
      return blocker('not-ordered', SHOP, about);
    case 'send':
      return blocker(need.again ? 'send-again' : 'still-here', SHOP, { ...about, processes: need.processes });
    case 'out':
      return blocker(
        need.line.kind === 'order' ? 'on-order' : 'out',
        { who: 'supplier', supplier: need.line.supplier },
        {
          item: item.number,
          line: need.line.id,
          since: need.line.openedAt,
          due: promiseOf(need.line)?.due ?? null,
          processes: need.line.processes,
        },
      );
  }
}

function reassemblyBlockers(state: JobState, rules: JobRules): Blocker[] {
  const { steps, itemsOf, loose } = buildOf(state);
  const unfitted = new Set(steps.filter((step) => !step.fitted).map((step) => step.id));
  const ofSteps = steps.flatMap((step) =>
    stepBlockers(state, step, itemsOf.get(step.id) ?? [], unfitted, rules),
  );
  return [...ofSteps, ...loose.flatMap((item) => looseBlockers(state, item, rules))];
}

/** A fitted step is held again only by something that came off or went out since, or was not there to go on with it. */
function stepBlockers(
  state: JobState,
  step: Step,
  items: readonly Item[],
  unfitted: ReadonlySet<string>,
  rules: JobRules,
): Blocker[] {
  const held = items.flatMap((item) => {
    const found = needBlocker(item, needOf(state, item, rules));
    return found ? [{ ...found, step: step.id }] : [];
  });
  if (step.fitted)
    return items
      .flatMap((item) => looseBlockers(state, item, rules))
      .map((each) => ({ ...each, step: step.id }));
  const behind = step.after.filter((id) => unfitted.has(id));
  if (behind.length > 0) return [...held, blocker('step-waits', SHOP, { step: step.id, behind })];
  return held.length > 0 ? held : [blocker('to-fit', SHOP, { step: step.id })];
}

function looseBlockers(state: JobState, item: Item, rules: JobRules): Blocker[] {
  const held = needBlocker(item, needOf(state, item, rules));
  if (held) return [held];
  return item.fitted ? [] : [blocker('item-to-fit', SHOP, { item: item.number })];
}

function roadTestBlockers(state: JobState): Blocker[] {
  const faults = state.faults.filter((fault) => fault.clearedAt === null).map(faultBlocker);
  const checks = state.checks
    .filter((check) => check.doneAt === null)
    .map((check) => blocker('check-undone', SHOP, { check: check.id }));
  return [...faults, ...checks, ...rideBlockers(state)];
}

function faultBlocker(fault: Fault): Blocker {
  return blocker('fault', SHOP, { fault: fault.number, item: fault.item, since: fault.foundAt });
}

/** A failed test wants riding again once its faults are put right. */
function rideBlockers(state: JobState): Blocker[] {
  if (state.roadTest === null) return [blocker('no-road-test', SHOP)];
  if (state.roadTest.outcome === 'pass') return [];
  return [blocker('road-test-failed', SHOP, { since: state.roadTest.at })];
}
