// @ts-check
import { join } from 'node:path';
import { runChild } from './child.mjs';
import { projectRoot } from './project.mjs';

/** Runs ESLint and Prettier over everything; gives the first exit code that isn't zero. */
export async function lint() {
  const eslint = await tool('eslint/bin/eslint.js', ['-c', 'config/eslint.config.js', '.']);
  const prettier = await tool('prettier/bin/prettier.cjs', ['--check', '--log-level', 'warn', '.']);
  return eslint === 0 ? prettier : eslint;
}

/** Formats everything; gives the exit code. */
export function format() {
  return tool('prettier/bin/prettier.cjs', ['--write', '--log-level', 'warn', '.']);
}

/**
 * Runs the tests once; all checks with them where no tests are singled out. Gives the first exit code that isn't zero.
 * @param {readonly string[]} args what to hand to vitest, e.g. a folder of tests
 */
export async function test(args) {
  const linted = args.length === 0 ? await lint() : 0;
  const tested = await tool('vitest/vitest.mjs', ['run', '--config', 'config/vitest.config.ts', ...args]);
  return linted === 0 ? tested : linted;
}

/**
 * @param {string} script
 * @param {readonly string[]} args
 */
async function tool(script, args) {
  const path = join(projectRoot, 'node_modules', script);
  const { code } = await runChild(process.execPath, [path, ...args], { cwd: projectRoot, show: 'all' });
  return code;
}
