import type { Role } from '../shop/events.js';

export type MenuEntry = { command: string; description: string };

const MENUS: Readonly<Record<Role, readonly MenuEntry[]>> = {
  mechanic: [
    { command: 'bench', description: 'Machines in the shop' },
    { command: 'list', description: 'Strip list of the machine on the bench' },
    { command: 'order', description: 'Its build order' },
    { command: 'people', description: 'Owners, suppliers and mechanics' },
    { command: 'rules', description: 'The shop’s rules' },
    { command: 'help', description: 'What you can say' },
  ],
  supplier: [{ command: 'mine', description: 'What you have of ours' }],
  owner: [{ command: 'progress', description: 'How your machine is coming on' }],
};

/** The commands offered in the chat's menu, by the part somebody speaks in. */
export function commandMenu(role: Role): MenuEntry[] {
  return [...MENUS[role]];
}
