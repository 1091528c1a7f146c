/** Messages by their ids, oldest first, in lists of at most so many: all but the last are shared by every later state. */
export type MessagesSaid = readonly (readonly string[])[];

const IN_A_LIST = 64;

export const isSaid = (said: MessagesSaid, message: string): boolean =>
  said.some((list) => list.includes(message));

/** The messages with one more; those that are there stay as they are. A job has thousands, and each is a new state. */
export function withMessage(said: MessagesSaid, message: string): MessagesSaid {
  if (isSaid(said, message)) return said;
  const last = said.at(-1);
  return last === undefined || last.length === IN_A_LIST
    ? [...said, [message]]
    : [...said.slice(0, -1), [...last, message]];
}
