// @ts-check
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { runChild } from './child.mjs';
import { withLock } from './lock.mjs';
import { projectRoot, toolsDir } from './project.mjs';
import { say } from './say.mjs';
import { SetupTrouble } from './trouble.mjs';

/** @typedef {{ version?: string, integrity?: string, optional?: boolean, devOptional?: boolean }} Entry */
/** @typedef {{ packages: Record<string, Entry> }} LockFile */

const lockPath = join(projectRoot, 'package-lock.json');
const installedPath = join(projectRoot, 'node_modules/.package-lock.json');
const stampPath = join(projectRoot, 'node_modules/.set-up-by');

/** Sees to it that node_modules is what the lock file says, by `npm ci` where it isn't. */
export async function ensureDependencies() {
  if (isStamped()) return;
  const wait = () => say('Waiting for another set-up to install the dependencies ...');
  await withLock(join(toolsDir, 'dependencies.lock'), install, wait);
}

async function install() {
  if (isStamped()) return;
  if (!isInstalled()) {
    say('Installing the dependencies by the lock file (npm ci) ...');
    const [program, ...args] = npm();
    const { code } = await runChild(program, [...args, 'ci', '--include=dev', '--no-audit', '--no-fund'], {
      cwd: projectRoot,
      show: 'progress',
    });
    if (code !== 0) throw new SetupTrouble(`npm ci failed with code ${code}: see what it says above.`);
  }
  writeFileSync(stampPath, stamp());
}

function isStamped() {
  return existsSync(stampPath) && readFileSync(stampPath, 'utf8') === stamp();
}

/** The lock file's digest, and what compiled add-ons depend on. */
function stamp() {
  const digest = createHash('sha256').update(readFileSync(lockPath)).digest('hex');
  return `${digest} ${process.platform}-${process.arch} abi${process.versions.modules}\n`;
}

/** Whether npm's own note of what it put into node_modules says the same as the lock file. */
function isInstalled() {
  return existsSync(installedPath) && isSameInstall(readLock(lockPath), readLock(installedPath));
}

/**
 * @param {LockFile} wanted package-lock.json
 * @param {LockFile} installed node_modules/.package-lock.json
 */
export function isSameInstall(wanted, installed) {
  const unwanted = Object.keys(installed.packages).some((path) => !(path in wanted.packages));
  return (
    !unwanted && Object.entries(wanted.packages).every(([path, entry]) => isThere(path, entry, installed))
  );
}

/**
 * @param {string} path
 * @param {Entry} entry
 * @param {LockFile} installed
 */
function isThere(path, entry, installed) {
  const found = installed.packages[path];
  // '' is the project itself; optional packages of other platforms stay away.
  if (found === undefined) return path === '' || entry.optional === true || entry.devOptional === true;
  return found.version === entry.version && found.integrity === entry.integrity;
}

/**
 * @param {string} path
 * @returns {LockFile}
 */
function readLock(path) {
  return JSON.parse(readFileSync(path, 'utf8'));
}

/**
 * The npm that started us, else the one on PATH.
 * @returns {[string, ...string[]]}
 */
function npm() {
  const script = process.env['npm_execpath'];
  return script !== undefined && /\.c?js$/.test(script) ? [process.execPath, script] : ['npm'];
}
