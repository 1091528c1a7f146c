// @ts-check
import { readFileSync } from 'node:fs';

/** @typedef {{ pid: number, started: string | null }} ProcessMark a process, told apart from a later one of its number */

/**
 * The mark of a running process.
 * @param {number} pid
 * @returns {ProcessMark}
 */
export function markOf(pid) {
  return { pid, started: startOf(pid) };
}

/**
 * Whether the marked process still runs: 'unsure' where its number is in use but not known by whom.
 * @param {ProcessMark} mark
 * @returns {'running' | 'gone' | 'unsure'}
 */
export function lookUp(mark) {
  if (!isInUse(mark.pid)) return 'gone';
  const started = startOf(mark.pid);
  if (started === null || mark.started === null) return 'unsure';
  return started === mark.started ? 'running' : 'gone';
}

/** @param {number} pid */
function isInUse(pid) {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error instanceof Error && 'code' in error && error.code === 'EPERM';
  }
}

/**
 * When a process began, in ticks since the machine started: field 22 of proc(5)'s stat. A dead one that its parent
 * hasn't collected yet (state Z) has begun no more. Null where there is no /proc.
 * @param {number} pid
 * @returns {string | null}
 */
function startOf(pid) {
  try {
    const stat = readFileSync(`/proc/${pid}/stat`, 'utf8');
    const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
    return fields[0] === 'Z' ? 'dead' : (fields[19] ?? null);
  } catch {
    return null;
  }
}
