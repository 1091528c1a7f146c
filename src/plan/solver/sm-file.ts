import type { Problem } from './problem.js';

/** What is wrong with a file, and where: lines count from 1; 0 is the file as a whole. */
export type FileFault = { line: number; reason: string };

export type FileResult =
  | {
      ok: true;
      problem: Problem;
      /** The critical-path length that the file states. */ mpmTime: number | null;
    }
  | { ok: false; fault: FileFault };

type Row = { line: number; text: string; numbers: number[] };

class Fault extends Error {
  constructor(
    readonly line: number,
    readonly reason: string,
  ) {
    super(reason);
  }
}

/**
 * Reads a single-mode instance in the `.sm` format of Kolisch & Sprecher (1996, EJOR 96:205-216): precedence
 * relations, requests and durations, resource availabilities, each under its heading. Activities keep the
 * file's order, the first being index 0.
 */
export function readSmFile(text: string): FileResult {
  try {
    return { ok: true, ...read(text) };
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    return { ok: false, fault: { line: error.line, reason: error.reason } };
  }
}

function read(text: string): { problem: Problem; mpmTime: number | null } {
  const lines = text.split(/\r?\n/);
  const links = section(lines, 'PRECEDENCE RELATIONS').map(readLinks);
  const resources = section(lines, 'RESOURCEAVAILABILITIES');
  const [capacity] = resources;
  if (!capacity || resources.length > 1) {
    throw new Fault(resources[1]?.line ?? lines.length, 'one line of resource availabilities is expected');
  }
  const requests = section(lines, 'REQUESTS/DURATIONS');
  if (requests.length !== links.length) {
    const line = requests.at(-1)?.line ?? lines.length;
    throw new Fault(line, `${links.length} jobs have successors given, ${requests.length} have durations`);
  }
  for (const [index, row] of [...links, ...requests].entries()) {
    const job = (index % links.length) + 1;
    if (row.numbers[0] !== job) throw new Fault(row.line, `job ${job} is expected here, not '${row.text}'`);
  }
  const activities = requests.map((row) => readRequest(row, capacity.numbers));
  return {
    problem: {
      activities,
      links: links.flatMap((row) =>
        row.to.map((to) => ({ from: row.from, to: checked(row, to, links.length) })),
      ),
      resources: capacity.numbers.map((units) => ({ capacity: units })),
    },
    mpmTime: statedLength(lines),
  };
}

function readLinks(row: Row): Row & { from: number; to: number[] } {
  const [job, modes, count, ...to] = row.numbers;
  if (job === undefined || modes === undefined || count === undefined) {
    throw new Fault(row.line, 'a job, its modes and its count of successors are expected');
  }
  if (modes !== 1) throw new Fault(row.line, `job ${job} has ${modes} modes; one is expected`);
  if (to.length !== count) {
    throw new Fault(row.line, `job ${job} says ${count} successors and lists ${to.length}`);
  }
  return { ...row, from: job - 1, to };
}

function checked(row: Row, job: number, jobs: number): number {
  if (job < 1 || job > jobs) throw new Fault(row.line, `successor ${job} is not among the ${jobs} jobs`);
  return job - 1;
}

function readRequest(row: Row, capacity: readonly number[]): { duration: number; demands: number[] } {
  const [job, mode, duration, ...demands] = row.numbers;
  if (job === undefined || mode !== 1 || duration === undefined || demands.length !== capacity.length) {
    throw new Fault(
      row.line,
      `a job, mode 1, its duration and ${capacity.length} requests are expected, not '${row.text}'`,
    );
  }
  demands.forEach((demand, index) => {
    if (duration > 0 && demand > (capacity[index] as number)) {
      throw new Fault(row.line, `job ${job} wants ${demand} of R ${index + 1}, there are ${capacity[index]}`);
    }
  });
  return { duration, demands };
}

/** The rows of whole numbers under a heading, up to the next line of stars. */
function section(lines: readonly string[], heading: string): Row[] {
  const at = lines.findIndex((line) => line.trim().startsWith(heading));
  if (at < 0) throw new Fault(0, `the heading '${heading}' is missing`);
  const rows: Row[] = [];
  for (let index = at + 1; index < lines.length; index += 1) {
    const text = (lines[index] as string).trim();
    if (text.startsWith('*')) return rows;
    if (text === '' || /^(-+$|jobnr|R\s*\d)/.test(text)) continue;
    rows.push({ line: index + 1, text, numbers: text.split(/\s+/).map((word) => whole(word, index + 1)) });
  }
  throw new Fault(lines.length, `the file ends within '${heading}'`);
}

function whole(word: string, line: number): number {
  if (!/^\d{1,9}$/.test(word)) throw new Fault(line, `'${word}' is not a whole number`);
  return Number(word);
}

function statedLength(lines: readonly string[]): number | null {
  const at = lines.findIndex((line) => line.includes('MPM-Time'));
  const length = at < 0 ? undefined : lines[at + 1]?.trim().split(/\s+/).at(-1);
  return length === undefined || !/^\d+$/.test(length) ? null : Number(length);
}
