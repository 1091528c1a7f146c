import { expect } from 'vitest';
import type { ShopCommand, ShopRefusal } from '../../src/shop/decide.js';
import { decideShop } from '../../src/shop/decide.js';
import type { ShopEvent, ShopEventType } from '../../src/shop/events.js';
import { shopEventSchemas } from '../../src/shop/events.js';
import type { ShopState } from '../../src/shop/state.js';
import { evolveShop, NEW_SHOP } from '../../src/shop/state.js';

const record = (state: ShopState, events: readonly ShopEvent[]): ShopState =>
  events.reduce((before, event) => evolveShop(before, { ...event, at: 0 }), state);

/** A shop to which this was said; nothing of it may be refused. */
export function shop(...commands: readonly ShopCommand[]) {
  const state = commands.reduce((before, command) => {
    const decision = decideShop(before, command);
    if ('refusal' in decision) throw new Error(`not a given, refused: ${JSON.stringify(decision.refusal)}`);
    return record(before, decision.events);
  }, NEW_SHOP);
  return {
    state,
    when(command: ShopCommand) {
      const decision = decideShop(state, command);
      return {
        /** Exactly these events; gives the state after them. */
        then(...types: readonly ShopEventType[]): ShopState {
          if ('refusal' in decision) throw new Error(`refused: ${JSON.stringify(decision.refusal)}`);
          expect(decision.events.map(({ type }) => type)).toEqual(types);
          for (const { type, data } of decision.events)
            expect(shopEventSchemas[type].safeParse(data).success).toBe(true);
          return record(state, decision.events);
        },
        refusedFor(refusal: ShopRefusal) {
          expect(decision).toEqual({ refusal });
        },
        refusal: 'refusal' in decision ? decision.refusal : null,
      };
    },
  };
}
