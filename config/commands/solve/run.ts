import { readSmFile } from '../../../src/plan/solver/sm-file.js';
import { solve } from '../../../src/plan/solver/solve.js';

const USAGE = 'usage: npm run -s solve -- --schedules N [--seed S] FILE…';
/** The seed where none is given. */
const SEED = 1;

/** What the command needs of the world; `clock` gives milliseconds. */
export type SolveDeps = {
  args: readonly string[];
  read: (file: string) => string;
  say: (line: string) => void;
  complain: (line: string) => void;
  clock: () => number;
};

type Request = { schedules: number; seed: number; files: string[] };

/**
 * Schedules each file and says its line of JSON; a file at fault is complained of, with the line that is wrong,
 * and the others are still solved. Gives the exit code: 0, 1 where a file was at fault, 2 for wrong arguments.
 */
export function runSolve(deps: SolveDeps): number {
  const request = readArguments(deps.args);
  if (request === null) {
    deps.complain(USAGE);
    return 2;
  }
  const faults = request.files.map((file) => solveFile(file, request, deps));
  for (const fault of faults) if (fault !== null) deps.complain(`solve: ${fault}`);
  return faults.every((fault) => fault === null) ? 0 : 1;
}

function solveFile(
  file: string,
  { schedules, seed }: Request,
  { read, say, clock }: SolveDeps,
): string | null {
  let text: string;
  try {
    text = read(file);
  } catch (error) {
    return `${file}: ${error instanceof Error ? error.message : String(error)}`;
  }
  const began = clock();
  const found = readSmFile(text);
  if (!found.ok) return `${file}:${found.fault.line}: ${found.fault.reason}`;
  const result = solve(found.problem, { schedules, seed });
  if (result.ok) {
    const { makespan, start } = result;
    const ms = Math.round(clock() - began);
    say(JSON.stringify({ file, makespan, start, schedules: result.schedules, ms }));
    return null;
  }
  const { fault } = result;
  return fault.kind === 'cycle'
    ? `${file}: jobs that wait for each other: ${fault.activities.map((activity) => activity + 1).join(', ')}`
    : `${file}: ${JSON.stringify(fault)}`;
}

function readArguments(args: readonly string[]): Request | null {
  const request: Request = { schedules: Number.NaN, seed: SEED, files: [] };
  for (let index = 0; index < args.length; index += 1) {
    const argument = args[index] as string;
    const option = /^--(schedules|seed)(?:=(.*))?$/.exec(argument);
    if (option) {
      const given = option[2] ?? args[(index += 1)] ?? '';
      request[option[1] as 'schedules' | 'seed'] = /^\d+$/.test(given) ? Number(given) : Number.NaN;
    } else if (argument.startsWith('--')) return null;
    else request.files.push(argument);
  }
  const { schedules, seed, files } = request;
  const good = Number.isSafeInteger(schedules) && schedules >= 1 && Number.isSafeInteger(seed);
  return good && files.length > 0 ? request : null;
}
