import { todayOf } from './calendars.js';
import { matterOf, tellMechanics } from './tell.js';
import type { Workplace } from './workplace.js';

const TRY_AGAIN_MS = 3_600_000;

/**
 * The day's back-up, once a shop day; one that failed is tried again each hour. The mechanics are told of the first
 * failure of a row of them, and not again until one was kept in between.
 */
export async function keepBackUp(place: Workplace, now: number): Promise<'kept' | 'failed' | 'not-due'> {
  const { record, log, outside } = place.deps;
  if (!outside?.backUp) return 'not-due';
  const day = todayOf((await place.store.shop()).policy, now);
  const { kept, failed } = await record.backUps.account();
  if (kept?.day === day) return 'not-due';
  if (failed?.day === day && now - failed.at < TRY_AGAIN_MS) return 'not-due';
  try {
    const written = await outside.backUp(day);
    await record.backUps.note({ kept: { ...written, day, at: now } });
    return 'kept';
  } catch (error) {
    log.error({ err: error }, 'the back-up could not be written');
    const since = failed?.since ?? day;
    const why = causeOf(error);
    await record.backUps.note({ failed: { day, at: now, why, since } });
    const about = [matterOf(null, { step: 'back-up' })];
    const id = `back-up-failed-${since}`;
    await tellMechanics(place, { id, kind: 'trouble', about, words: why, at: now, by: 'benchhand' });
    return 'failed';
  }
}

/** The system's own short word for what went wrong, such as ENOSPC; messages hold paths. */
function causeOf(error: unknown): string {
  const { code } = error as { code?: unknown };
  return typeof code === 'string' ? code : 'fault';
}
