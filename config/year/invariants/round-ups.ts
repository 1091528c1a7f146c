import { DateTime } from 'luxon';
import { ZONE } from '../../demo/shop-time.js';
import type { ClosedDays } from '../ledger.js';
import { isClosed } from '../ledger.js';

/** The rehearsed shop's rule, 07:45; where the chat's server fails, it goes within the hour. */
const FROM = 7 * 60 + 45;
const UNTIL = FROM + 60;

/** A mechanic's round-up goes in the morning by the shop's own clock, whatever the season, and on no closed day. */
export function roundUpAmiss(
  who: string,
  sentAt: readonly number[],
  closed: readonly ClosedDays[],
): string[] {
  return sentAt.flatMap((instant) => {
    const at = DateTime.fromMillis(instant, { zone: ZONE });
    const minute = at.hour * 60 + at.minute;
    const day = at.toISODate() ?? '';
    const isRight = at.weekday <= 5 && !isClosed(closed, day) && minute >= FROM && minute < UNTIL;
    return isRight ? [] : [`${who} had a round-up on ${at.toFormat('ccc d LLL HH:mm')}`];
  });
}
