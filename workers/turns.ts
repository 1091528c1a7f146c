/** Does what is asked for under one name one after the other, in the order asked. */
export type Turns = (name: string, work: () => Promise<void>) => Promise<void>;

/** Makes turns in which nobody waits yet. One that fails holds up nobody behind it. */
export function makeTurns(): Turns {
  const last = new Map<string, Promise<void>>();
  return async (name, work) => {
    const before = last.get(name) ?? Promise.resolve();
    const mine = before.then(work, work);
    last.set(name, mine);
    try {
      await mine;
    } finally {
      if (last.get(name) === mine) last.delete(name);
    }
  };
}
