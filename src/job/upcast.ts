import { SCHEMA_VERSIONS } from './events.js';

/** An event as the record holds it, of whatever schema version. */
type Stored = { type: string; schema: number; data: unknown };

/** What an older version of an event held, as the next version holds it. */
type Step = (data: Record<string, unknown>) => Record<string, unknown>;

/** Steps by event, the first from version 1 to 2. */
const STEPS: Readonly<Record<string, readonly Step[]>> = {
  'line-answered': [(data) => ({ ...data, ready: false })],
};

/**
 * Brings a job's event of an older schema version up to date, step by step; a current one is given back as it is.
 * Throws on a version newer than this program knows: it was written by a later one.
 */
export function upcast<E extends Stored>(event: E): E {
  const newest = newestOf(event.type);
  if (event.schema > newest) {
    throw new Error(`'${event.type}' has schema version ${event.schema}; this program knows up to ${newest}`);
  }
  if (event.schema === newest) return event;
  const steps = (STEPS[event.type] ?? []).slice(event.schema - 1);
  const data = steps.reduce((before, step) => step(before), event.data as Record<string, unknown>);
  return { ...event, schema: newest, data };
}

function newestOf(type: string): number {
  const versions: Readonly<Record<string, number>> = SCHEMA_VERSIONS;
  return versions[type] ?? 1;
}
