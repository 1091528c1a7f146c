import { z } from 'zod';
import type { NewEvent } from '../record/types.js';

/** An event was decided that is not of the shape its own schema gives it: a defect, which must not be stored. */
export class EventShapeError extends Error {
  override readonly name = 'EventShapeError';
}

/** Throws EventShapeError, which names the event and the field, unless each event's data is as its schema has it. */
export function assertShapes(
  events: readonly NewEvent[],
  schemas: Readonly<Record<string, z.ZodType>>,
): void {
  for (const { type, data } of events) {
    const parsed = schemas[type]?.safeParse(data);
    if (parsed?.success) continue;
    const problem = parsed === undefined ? 'no schema is known' : z.prettifyError(parsed.error);
    throw new EventShapeError(`'${type}' is not recorded: ${problem}`);
  }
}
