import { spawn } from 'node:child_process';
import { closeSync, openSync, readFileSync } from 'node:fs';

/** A part of the service that runs as a process of its own. */
export type ServiceProcess = {
  name: string;
  pid: number;
  /** Settles when it has ended, however it did. */
  ended: Promise<{ code: number | null; signal: NodeJS.Signals | null }>;
  /** Whether it was told to end. */
  isStopping: () => boolean;
  /** Tells it to end and waits; kills it where it takes too long. */
  stop: () => Promise<void>;
  kill: () => Promise<void>;
  /** The end of what it logged. */
  logTail: () => string;
};

export type ServiceProcessOptions = {
  name: string;
  /** The compiled start command. */
  program: string;
  args: readonly string[];
  env: NodeJS.ProcessEnv;
  logFile: string;
};

const STOP_WITHIN_MS = 8_000;
const TAIL_LINES = 15;

/** Starts a part of the service; what it prints goes to the log file. */
export function startServiceProcess(options: ServiceProcessOptions): ServiceProcess {
  const { name, program, args, env, logFile } = options;
  const out = openSync(logFile, 'a');
  const child = spawn(process.execPath, ['--enable-source-maps', program, ...args], {
    env,
    stdio: ['ignore', out, out],
    // A Ctrl-C in the terminal is for us alone: we end them in their order.
    detached: true,
  });
  closeSync(out);
  let isStopping = false;
  const ended = new Promise<{ code: number | null; signal: NodeJS.Signals | null }>((resolve) => {
    child.once('exit', (code, signal) => resolve({ code, signal }));
    child.once('error', () => resolve({ code: null, signal: null }));
  });
  const end = async (signal: NodeJS.Signals): Promise<void> => {
    isStopping = true;
    child.kill(signal);
    const killing = setTimeout(() => child.kill('SIGKILL'), STOP_WITHIN_MS);
    await ended;
    clearTimeout(killing);
  };
  return {
    name,
    pid: child.pid ?? 0,
    ended,
    isStopping: () => isStopping,
    stop: () => end('SIGTERM'),
    kill: () => end('SIGKILL'),
    logTail: () => readFileSync(logFile, 'utf8').trimEnd().split('\n').slice(-TAIL_LINES).join('\n'),
  };
}
