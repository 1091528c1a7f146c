import { processFacts } from '../trade/processes.js';
import type { Condition, Gate, Process, Remedy } from '../trade/terms.js';
import { joined } from './lines.js';

/** What somebody is called whose data was removed. */
export const FORGOTTEN_NAME = 'a former contact';

/** Stands where the number of somebody forgotten stood. */
export const FORGOTTEN_NUMBER = 'a number no longer kept';

const GATE_NAMES: Readonly<Record<Gate, string>> = {
  stripped: 'stripped',
  inspected: 'inspected',
  'parts-ordered': 'parts ordered',
  'sublet-out': 'sublet out',
  reassembled: 'reassembled',
  'road-tested': 'road-tested',
};

/** A gate as it is called at the bench. */
export const gateName = (gate: Gate): string => GATE_NAMES[gate];

const GATES_AS_WORK: Readonly<Record<Gate, string>> = {
  stripped: 'stripping',
  inspected: 'inspection',
  'parts-ordered': 'parts ordering',
  'sublet-out': 'sending out',
  reassembled: 'reassembly',
  'road-tested': 'the road test',
};

/** The work that leads to a gate: 'reassembly'. */
export const gateWork = (gate: Gate): string => GATES_AS_WORK[gate];

const CONDITION_NAMES: Partial<Record<Condition, string>> = {
  'stripped-thread': 'thread stripped',
  incorrect: 'wrong for the model',
  bodged: 'a poor earlier repair',
  'out-of-true': 'out of true',
};

export const conditionName = (condition: Condition): string => CONDITION_NAMES[condition] ?? condition;

/** 'chroming and polishing'. */
export const doing = (processes: readonly Process[]): string =>
  joined(processes.map((process) => processFacts[process].doing));

/** 'chromed and polished'. */
export const done = (processes: readonly Process[]): string =>
  joined(processes.map((process) => processFacts[process].done));

/** ' for chroming', or nothing where no work was named. */
export const forWork = (processes: readonly Process[]): string =>
  processes.length === 0 ? '' : ` for ${doing(processes)}`;

/** What was decided, as a clause: 'replace', 'send out for relining', 'repair here (straightening)'. */
export function remedyName(remedy: Remedy, processes: readonly Process[]): string {
  const work = processes.length === 0 ? '' : ` (${doing(processes)})`;
  switch (remedy) {
    case 'keep':
      return 'keep';
    case 'clean':
      return `clean${work}`;
    case 'repair':
      return `repair here${work}`;
    case 'make':
      return `make here${work}`;
    case 'replace':
      return 'replace';
    case 'check':
      return 'look again before deciding';
    case 'send-out':
      return `send out${forWork(processes)}`;
  }
}

/** What is still to be done in the shop, as a clause after 'to be'. */
export function toBeDone(remedy: Remedy | null, processes: readonly Process[]): string {
  if (processes.length > 0) return `to be ${done(processes)} here`;
  switch (remedy) {
    case 'clean':
      return 'to be cleaned';
    case 'make':
      return 'to be made';
    case 'repair':
    case 'keep':
    case 'check':
    case 'replace':
    case 'send-out':
    case null:
      return 'to be repaired here';
  }
}

/** What was done in the shop: 'cleaned', 'repaired'. */
export function workDoneName(remedy: Remedy | null, processes: readonly Process[]): string {
  return toBeDone(remedy, processes)
    .replace(/^to be /, '')
    .replace(/ here$/, '');
}
