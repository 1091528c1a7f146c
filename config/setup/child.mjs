// @ts-check
import { spawn } from 'node:child_process';
import { constants } from 'node:os';

/** @typedef {{ cwd?: string, env?: NodeJS.ProcessEnv, show?: 'all' | 'progress' | 'nothing' }} ChildOptions */
/** @typedef {{ code: number, stdout: string, stderr: string }} ChildResult */

/** @type {readonly NodeJS.Signals[]} */
const FORWARDED = ['SIGINT', 'SIGTERM', 'SIGHUP'];

/**
 * Runs a program to its end. `show`: 'all' gives it our own output streams, 'progress' sends both of its streams
 * to our standard error, 'nothing' (the default) collects them. It never reads standard input. A program killed
 * by a signal has the shell's code, 128 + the signal's number. Signals that reach us meanwhile are passed on.
 * Rejects where the program can't be started.
 * @param {string} program
 * @param {readonly string[]} args
 * @param {ChildOptions} [options]
 * @returns {Promise<ChildResult>}
 */
export function runChild(program, args, { cwd, env, show = 'nothing' } = {}) {
  const stdio = { all: [1, 2], progress: [2, 2], nothing: ['pipe', 'pipe'] }[show];
  return new Promise((resolve, reject) => {
    const child = spawn(program, args, {
      ...(cwd === undefined ? {} : { cwd }),
      env: env ?? process.env,
      stdio: /** @type {import('node:child_process').StdioOptions} */ (['ignore', ...stdio]),
    });
    const heard = collect(child);
    const stopForwarding = forwardSignals(child);
    child.once('error', (error) => {
      stopForwarding();
      reject(error);
    });
    child.once('close', (code, signal) => {
      stopForwarding();
      resolve({ code: exitCode(code, signal), stdout: heard.stdout(), stderr: heard.stderr() });
    });
  });
}

/** @param {import('node:child_process').ChildProcess} child */
function collect(child) {
  /** @type {Buffer[]} */
  const out = [];
  /** @type {Buffer[]} */
  const err = [];
  child.stdout?.on('data', (part) => out.push(part));
  child.stderr?.on('data', (part) => err.push(part));
  return {
    stdout: () => Buffer.concat(out).toString('utf8'),
    stderr: () => Buffer.concat(err).toString('utf8'),
  };
}

/** @param {import('node:child_process').ChildProcess} child */
function forwardSignals(child) {
  /** @param {NodeJS.Signals} signal */
  const forward = (signal) => child.kill(signal);
  for (const signal of FORWARDED) process.on(signal, forward);
  return () => {
    for (const signal of FORWARDED) process.off(signal, forward);
  };
}

/**
 * @param {number | null} code
 * @param {NodeJS.Signals | null} signal
 */
function exitCode(code, signal) {
  if (signal !== null) return 128 + constants.signals[signal];
  return code ?? 1;
}
