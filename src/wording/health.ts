import { DateTime } from 'luxon';
import type { Answer, Speaker } from './answer.js';
import { dayOf } from './figures.js';
import type { Line } from './lines.js';
import { bold, counted, joined, listed, message } from './lines.js';

/** A message that has not gone yet though it was tried, or was given up. */
export type SendTrouble = { person: string; tries: number; since: number; isGivenUp: boolean };

/** What lies around the record. Waits and sizes in ms of machine time and bytes. */
export type Surroundings = {
  longestWaitMs: number | null;
  wokeAgoMs: number | null;
  disk: { freeBytes: number; wholeBytes: number; picturesBytes: number };
  redis: {
    version: string;
    appendOnly: boolean;
    fsync: string | null;
    evicts: boolean;
    warnings: readonly string[];
  };
  keepsBackUps: boolean;
};

/** What became of the daily back-ups: the last that was kept, and the failure since, with the system's word for its cause. */
export type BackUps = {
  kept: { at: number; name: string; bytes: number } | null;
  failed: { at: number; why: string } | null;
};

export type Health = {
  /** Shop time, ms. */
  now: number;
  sends: readonly SendTrouble[];
  backUp: BackUps;
  /** Null where nothing of it can be seen. */
  around: Surroundings | null;
};

/** One thing looked at: what is to be said of it, and whether somebody should see to it. */
type Finding = { line: Line; isBad: boolean };

const MINUTE_MS = 60_000;
const DAY_MS = 24 * 60 * MINUTE_MS;
/** What waits longer than this is stuck: queues are worked within seconds. */
const STUCK_AFTER_MS = 10 * MINUTE_MS;
/** The sweep comes every few minutes; five of them missed in a row is no chance. */
const ASLEEP_AFTER_MS = 15 * MINUTE_MS;
/** Room for some fifty pictures of the size that the chat gives out. */
const LEAST_FREE_BYTES = 1_000_000_000;
const BACK_UP_OLD_AFTER_MS = 2 * DAY_MS;
const SENDS_AT_MOST = 6;

/** To a mechanic who asks: whether all is well, and each thing looked at, what wants seeing to first. */
export function healthText(health: Health, speaker: Speaker): Answer {
  const found = findingsOf(health, speaker);
  const bad = found.filter(({ isBad }) => isBad);
  const good = found.filter(({ isBad }) => !isBad);
  const head =
    bad.length === 0 ? 'All is well.' : `${counted(bad.length, 'thing wants', 'things want')} seeing to:`;
  return message([
    [bold(head)],
    ...listed(
      [...bad, ...good].map(({ line }) => line),
      20,
    ),
  ]);
}

function findingsOf({ now, sends, backUp, around }: Health, speaker: Speaker): Finding[] {
  const failing = sendFindings(sends, speaker);
  if (around === null) return [...failing, backUpFinding(now, backUp, speaker)];
  return [
    waitFinding(around.longestWaitMs),
    wakeFinding(around.wokeAgoMs),
    ...failing,
    diskFinding(around.disk),
    ...redisFindings(around.redis),
    around.keepsBackUps
      ? backUpFinding(now, backUp, speaker)
      : { line: '• No back-ups are kept here.', isBad: true },
  ];
}

function waitFinding(forMs: number | null): Finding {
  if (forMs === null) return { line: '• Nothing waits to be sent or fetched.', isBad: false };
  const isBad = forMs > STUCK_AFTER_MS;
  const what = isBad ? 'Something has been waiting to be sent or fetched' : 'What waits longest has waited';
  return { line: `• ${what} for ${lasting(forMs)}.`, isBad };
}

function wakeFinding(agoMs: number | null): Finding {
  if (agoMs === null) return { line: '• I have not looked at what is due yet.', isBad: true };
  return { line: `• I last looked at what is due ${lasting(agoMs)} ago.`, isBad: agoMs > ASLEEP_AFTER_MS };
}

function sendFindings(sends: readonly SendTrouble[], speaker: Speaker): Finding[] {
  if (sends.length === 0) return [{ line: '• No message is failing.', isBad: false }];
  const lines = sends.map(({ person, tries, since, isGivenUp }) => {
    const whose = `${speaker.name(person)} of ${dayOf(since, speaker)}`;
    return isGivenUp
      ? `• The message to ${whose} did not reach them and was given up.`
      : `• The message to ${whose} has not gone yet, after ${counted(tries, 'try', 'tries')}. I go on trying.`;
  });
  return listed(lines, SENDS_AT_MOST).map((line) => ({ line, isBad: true }));
}

function diskFinding({ freeBytes, wholeBytes, picturesBytes }: Surroundings['disk']): Finding {
  return {
    line: `• The disk with the pictures has ${size(freeBytes)} of ${size(wholeBytes)} free; pictures and voice notes take ${size(picturesBytes)}.`,
    isBad: freeBytes < LEAST_FREE_BYTES,
  };
}

function redisFindings({ version, appendOnly, fsync, evicts, warnings }: Surroundings['redis']): Finding[] {
  const habits = [
    appendOnly ? 'keeps the record append-only' : 'keeps the record',
    ...(fsync === 'always' ? ['flushes every write to the disk'] : []),
    ...(evicts ? [] : ['throws nothing away']),
  ];
  return [
    ...warnings.map((warning) => ({ line: `• ${warning}`, isBad: true })),
    { line: `• Redis ${version} ${joined(habits)}.`, isBad: false },
  ];
}

function backUpFinding(now: number, { kept, failed }: BackUps, speaker: Speaker): Finding {
  const last =
    kept === null
      ? 'No back-up was kept yet'
      : `The last back-up is of ${dayOf(kept.at, speaker)}, ${timeOf(kept.at, speaker)}: ${kept.name}, ${size(kept.bytes)}`;
  if (failed !== null) {
    return {
      line: `• ${last}. The one of ${dayOf(failed.at, speaker)} failed: ${causeWords(failed.why)}.`,
      isBad: true,
    };
  }
  return { line: `• ${last}.`, isBad: kept === null || now - kept.at > BACK_UP_OLD_AFTER_MS };
}

/** To a mechanic: the day's back-up could not be written. Said once, however often it fails in a row. */
export function backUpFailedText(why: string): Answer {
  return message([
    `Today’s back-up could not be written: ${causeWords(why)}. The record itself is not touched by that. I try again every hour; ask “are you well?” to see whether it worked. You won’t be told of this again until one has worked in between.`,
  ]);
}

/** The system's short words for what goes wrong with files (POSIX, errno), as said at a bench. */
function causeWords(why: string): string {
  switch (why) {
    case 'ENOSPC':
    case 'EDQUOT':
      return 'there is no room left on the disk';
    case 'EACCES':
    case 'EPERM':
    case 'EROFS':
      return 'I am not allowed to write to its folder';
    case 'ENOENT':
    case 'ENOTDIR':
      return 'its folder is not there';
    default:
      return 'the log says why';
  }
}

/** The local time of an instant, ms: '07:45'. */
function timeOf(at: number, { zone }: Pick<Speaker, 'zone'>): string {
  return DateTime.fromMillis(at, { zone }).toFormat('HH:mm');
}

/** 'less than a minute', '3 minutes', '5 hours', '2 days'. */
function lasting(ms: number): string {
  if (ms < MINUTE_MS) return 'less than a minute';
  const minutes = Math.round(ms / MINUTE_MS);
  if (minutes < 120) return counted(minutes, 'minute');
  const hours = Math.round(minutes / 60);
  return hours < 48 ? counted(hours, 'hour') : counted(Math.round(hours / 24), 'day');
}

function size(bytes: number): string {
  if (bytes < 1_000_000) return `${Math.ceil(bytes / 1_000)} kB`;
  if (bytes < 1_000_000_000) return `${(bytes / 1_000_000).toFixed(bytes < 10_000_000 ? 1 : 0)} MB`;
  return `${(bytes / 1_000_000_000).toFixed(bytes < 10_000_000_000 ? 1 : 0)} GB`;
}
