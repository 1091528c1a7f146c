import { readFileSync } from 'node:fs';

/** Ticks a second of proc(5)'s times on Linux. */
const TICKS = 100;

/**
 * Seconds of processor time that a process has used, and those of the programs that it started and that have ended (proc(5): utime and
 * stime, cutime and cstime). What else runs on the machine tells less on them than on the clock.
 */
export function cpuSecondsOf(pid: number | 'self'): { own: number; children: number } {
  const stat = readFileSync(`/proc/${pid}/stat`, 'utf8');
  // The name, in brackets, may hold spaces.
  const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
  const [own = NaN, system = NaN, children = NaN, theirs = NaN] = fields.slice(11, 15).map(Number);
  return { own: (own + system) / TICKS, children: (children + theirs) / TICKS };
}
