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
    if (isStale(path)) discard(path);
    if (!put(path, holder)) return { ok: false, holder: readHolder(path) };
  }
  const beat = setInterval(() => touch(path), BEAT_MS).unref();
  const release = () => {
    clearInterval(beat);
    process.off('exit', release);
    if (readHolder(path)?.token === holder.token) rmSync(path, { recursive: true, force: true });
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

/** @param {string} path */
function isStale(path) {
  const holder = readHolder(path);
  if (holder === null) return false;
  if (holder.host === hostname()) {
    const found = lookUp(holder);
    if (found !== 'unsure') return found === 'gone';
  }
  try {
    return Date.now() - statSync(path).mtimeMs > SILENT_MS;
  } catch {
    return false;
  }
}

/**
 * Moves a stale lock out of the way; if a new holder took it between our look and our move, it is put back.
 * @param {string} path
 */
function discard(path) {
  const judged = readHolder(path);
  const aside = `${path}.stale-${randomUUID()}`;
  try {
    renameSync(path, aside);
  } catch (error) {
    if (hasCode(error, 'ENOENT')) return;
    throw error;
  }
  if (readHolder(aside)?.token === judged?.token) rmSync(aside, { recursive: true, force: true });
  else renameSync(aside, path);
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
