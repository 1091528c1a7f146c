// @ts-check
import { copyFileSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { runChild } from './child.mjs';
import { withLock } from './lock.mjs';
import { projectRoot, toolsDir } from './project.mjs';
import { say } from './say.mjs';
import { digestOf, listFiles, listSources, outputsOf } from './sources.mjs';
import { SetupTrouble } from './trouble.mjs';

/** @typedef {import('./sources.mjs').Sources} Sources */

const dist = join(projectRoot, 'dist');
const stampPath = join(dist, '.built-from');
const incrementalPath = join(dist, '.tsbuildinfo');

/**
 * Compiles the sources into dist/ and puts their data files beside them, where they have changed since the last build;
 * what has no source any more is removed. Compiling is the type check.
 */
export async function ensureBuilt() {
  if (isBuilt(listSources(projectRoot))) return;
  const wait = () => say('Waiting for another build ...');
  await withLock(join(toolsDir, 'build.lock'), build, wait);
}

async function build() {
  const sources = listSources(projectRoot);
  if (isBuilt(sources)) return;
  say('Building ...');
  const digest = digestOf(projectRoot, sources);
  rmSync(stampPath, { force: true });
  copyData(sources);
  await compile();
  // The compiler trusts its own notes, so that it doesn't write again what was deleted by hand.
  if (!isComplete(sources)) {
    rmSync(incrementalPath, { force: true });
    await compile();
  }
  removeOrphans(sources);
  writeFileSync(stampPath, digest);
}

/** @param {Sources} sources */
function isBuilt(sources) {
  return existsSync(stampPath) && readFileSync(stampPath, 'utf8') === digestOf(projectRoot, sources);
}

async function compile() {
  const compiler = join(projectRoot, 'node_modules/typescript/bin/tsc');
  const { code } = await runChild(process.execPath, [compiler], { cwd: projectRoot, show: 'progress' });
  if (code !== 0) throw new SetupTrouble('The build failed: see the errors above.');
}

/** @param {Sources} sources */
function isComplete({ code }) {
  return code.flatMap(outputsOf).every((path) => existsSync(join(dist, path)));
}

/** @param {Sources} sources */
function copyData({ data }) {
  for (const path of data) {
    mkdirSync(dirname(join(dist, path)), { recursive: true });
    copyFileSync(join(projectRoot, path), join(dist, path));
  }
}

/** @param {Sources} sources */
function removeOrphans({ code, data }) {
  const wanted = new Set([...code.flatMap(outputsOf), ...data]);
  for (const room of ['src', 'workers', 'bot', 'config', 'tests']) {
    for (const path of listFiles(dist, room)) if (!wanted.has(path)) rmSync(join(dist, path));
  }
}
