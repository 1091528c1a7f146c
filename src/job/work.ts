import type { Item } from './state.js';

/** What the item's work comes to in major units, counting each piece where the price is for one; null when no price is known. */
export function totalOf(item: Pick<Item, 'cost' | 'count'>): number | null {
  if (!item.cost) return null;
  return item.cost.each ? item.cost.amount * (item.count ?? 1) : item.cost.amount;
}

/** Whether what was decided for the item has been done, so that it could be fitted. */
export function isDone(item: Pick<Item, 'remedy' | 'workDone' | 'returned'>): boolean {
  switch (item.remedy) {
    case null:
    case 'check':
      return false;
    case 'keep':
      return true;
    case 'clean':
    case 'repair':
    case 'make':
      return item.workDone;
    case 'send-out':
    case 'replace':
      return item.returned;
  }
}

/** What is still to be done to the item outside. */
export function outstanding({ processes, processesDone }: Pick<Item, 'processes' | 'processesDone'>) {
  return processes.filter((process) => !processesDone.includes(process));
}
