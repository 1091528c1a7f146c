import { DateTime } from 'luxon';

const ZONE = 'Europe/London';
/** The rehearsed shop's rule, 07:45; where the chat's server fails, it goes within the hour. */
const FROM = 7 * 60 + 45;
const UNTIL = FROM + 60;

/** A mechanic's round-up goes in the morning by the shop's own clock, whatever the season, and on no closed day. */
export function roundUpAmiss(
  who: string,
  sentAt: readonly number[],
  closed: readonly { from: string; to: string }[],
): string[] {
  return sentAt.flatMap((instant) => {
    const at = DateTime.fromMillis(instant, { zone: ZONE });
    const minute = at.hour * 60 + at.minute;
    const day = at.toISODate() ?? '';
    const isClosed = at.weekday > 5 || closed.some(({ from, to }) => from <= day && day <= to);
    const isRight = !isClosed && minute >= FROM && minute < UNTIL;
    return isRight ? [] : [`${who} had a round-up on ${at.toFormat('ccc d LLL HH:mm')}`];
  });
}
