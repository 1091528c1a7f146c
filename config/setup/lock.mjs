// @ts-check
import { randomUUID } from 'node:crypto';
import { mkdirSync, readFileSync, renameSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { dirname, join } from 'node:path';
import { setTimeout as delay } from 'node:timers/promises';
import { lookUp, markOf } from './processes.mjs';

/** @typedef {import('./processes.mjs').ProcessMark & { token: string, host: string }} Holder */
/** @typedef {{ ok: true, release: () => void } | { ok: false, holder: Holder | null }} Taking */

const BEAT_MS = 2_000;
/** A holder whom we can't look up, and who hasn't beaten for so long, is taken for dead. */
const SILENT_MS = 60_000;
const POLL_MS = 100;

/**
 * Does `work` while holding the lock folder at `path`, waiting for whoever holds it. `onWait` is called once, if there
 * is anyone to wait for.
 * @template T
 * @param {string} path
 * @param {() => Promise<T>} work
 * @param {() => void} [onWait]
 * @returns {Promise<T>}
 */
export async function withLock(path, work, onWait = () => {}) {
  let taking = takeLock(path);
  if (!taking.ok) onWait();
  while (!taking.ok) {
    await delay(POLL_MS);
    taking = takeLock(path);
  }
  try {
    return await work();
  } finally {
    taking.release();
  }
}

/**
 * Takes the lock folder at `path` and holds it until released or the process ends; or gives who holds it. A lock whose
 * holder has died is taken over: one on this machine at once, one elsewhere (a shared disk) after a minute's silence.
 * @param {string} path
 * @returns {Taking}
 */
export function takeLock(path) {
  const holder = { token: randomUUID(), host: hostname(), ...markOf(process.pid) };
  mkdirSync(dirname(path), { recursive: true });
  if (!put(path, holder)) {
    const found = readHolder(path);
    if (found === null || !isStale(path, found)) return { ok: false, holder: found };
    discard(path, found);
    if (!put(path, holder)) return { ok: false, holder: readHolder(path) };
  }
  const beat = setInterval(() => touch(path), BEAT_MS).unref();
  const release = () => {
    clearInterval(beat);
    process.off('exit', release);
    if (readHolder(path)?.token === holder.token) remove(path);
  };
  process.once('exit', release);
  return { ok: true, release };
}

/**
 * The lock is made complete under another name and then renamed: a rename onto a folder that isn't empty fails, so
 * that there is never a lock without its holder's name in it.
 * @param {string} path
 * @param {Holder} holder
 */
function put(path, holder) {
  const made = `${path}.${holder.token}`;
  mkdirSync(made, { recursive: true });
  writeFileSync(join(made, 'holder.json'), JSON.stringify(holder));
  try {
    renameSync(made, path);
    return true;
  } catch (error) {
    rmSync(made, { recursive: true, force: true });
    if (hasCode(error, 'ENOTEMPTY', 'EEXIST', 'EPERM')) return false;
    throw error;
  }
}

/**
 * @param {string} path
 * @param {Holder} holder
 */
function isStale(path, holder) {
  if (holder.host === hostname()) {
    const found = lookUp(holder);
    if (found !== 'unsure') return found === 'gone';
  }
  return silence(path) > SILENT_MS;
}

/**
 * Removes the lock of a holder that was found dead. One at a time: the dead don't let go of their locks, so that what is
 * seen here is still there when it is removed.
 * @param {string} path
 * @param {Holder} dead
 */
function discard(path, dead) {
  const room = `${path}.discarding`;
  try {
    mkdirSync(room);
  } catch (error) {
    if (!hasCode(error, 'EEXIST')) throw error;
    // Whoever made it is at work, which takes no time, or was killed at it.
    if (silence(room) > SILENT_MS) rmSync(room, { recursive: true, force: true });
    return;
  }
  try {
    if (readHolder(path)?.token === dead.token) remove(path);
  } finally {
    rmSync(room, { recursive: true, force: true });
  }
}

/**
 * In one step: a lock that is emptied first could be taken by another, and then be lost to him, between two steps.
 * @param {string} path
 */
function remove(path) {
  const aside = `${path}.${randomUUID()}`;
  renameSync(path, aside);
  rmSync(aside, { recursive: true, force: true });
}

/**
 * How long a folder hasn't been touched, in milliseconds; 0 where it isn't there.
 * @param {string} path
 */
function silence(path) {
  try {
    return Date.now() - statSync(path).mtimeMs;
  } catch (error) {
    if (hasCode(error, 'ENOENT')) return 0;
    throw error;
  }
}

/**
 * @param {string} path
 * @returns {Holder | null}
 */
function readHolder(path) {
  try {
    return JSON.parse(readFileSync(join(path, 'holder.json'), 'utf8'));
  } catch {
    return null;
  }
}

/** @param {string} path */
function touch(path) {
  const now = new Date();
  try {
    utimesSync(path, now, now);
  } catch {
    // Someone took us for dead and moved the lock; the work at hand is still finished.
  }
}

/**
 * @param {unknown} error
 * @param {...string} codes
 */
function hasCode(error, ...codes) {
  return error instanceof Error && 'code' in error && codes.includes(String(error.code));
}
