// @ts-check
import { chmodSync, existsSync, mkdirSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { runChild } from './child.mjs';
import { hasDebianTools, makeFetcher } from './debian-packages.mjs';
import { findRedis, isNewEnough, OLDEST_REDIS, serverVersion, unpackedDir } from './find-redis.mjs';
import { withLock } from './lock.mjs';
import { toolsDir } from './project.mjs';
import { say } from './say.mjs';
import { SetupTrouble } from './trouble.mjs';

/** Server and tools: in Debian the server is a link to a program of the tools' package. */
const CHOICES = [
  ['redis-server', 'redis-tools'],
  ['valkey-server', 'valkey-tools'],
];

const WANTED = `redis-server or valkey-server ${OLDEST_REDIS.join('.')} or newer`;

/**
 * Sees to it that a server can be started: one on PATH, or the distribution's packages unpacked into .tools/redis.
 * Nothing is installed into the system. Throws a SetupTrouble that says what to install where neither works.
 */
export async function ensureRedis() {
  if (findRedis() !== null) return;
  if (!hasDebianTools()) throw new SetupTrouble(`Please install ${WANTED}, so that it is on PATH.`);
  const wait = () => say('Waiting for another set-up to fetch Redis ...');
  await withLock(
    join(toolsDir, 'redis.lock'),
    async () => {
      if (findRedis() === null) await fetchRedis();
    },
    wait,
  );
}

async function fetchRedis() {
  say('Fetching redis-server from the distribution into .tools/redis (not installed into the system) ...');
  const work = join(toolsDir, 'redis.work');
  rmSync(work, { recursive: true, force: true });
  mkdirSync(work, { recursive: true });
  try {
    const made = await firstThatRuns(work);
    rmSync(unpackedDir, { recursive: true, force: true });
    renameSync(made, unpackedDir);
  } finally {
    rmSync(work, { recursive: true, force: true });
  }
}

/**
 * @param {string} work
 * @returns {Promise<string>} the folder with the unpacked packages and their wrapper
 */
async function firstThatRuns(work) {
  const fetcher = makeFetcher(join(work, 'apt'));
  const troubles = [];
  for (const packages of CHOICES) {
    const made = join(work, packages[0] ?? '');
    try {
      await unpackServer(fetcher, packages, made);
      const version = serverVersion(join(made, 'redis-server'));
      if (version !== null && isNewEnough(version)) return made;
      troubles.push(`${packages[0]} here is ${version ?? 'unable to run'}`);
    } catch (error) {
      if (!(error instanceof SetupTrouble)) throw error;
      troubles.push(error.message);
    }
  }
  throw new SetupTrouble(`Please install ${WANTED}, so that it is on PATH (${troubles.join('; ')}).`);
}

/**
 * @param {ReturnType<typeof makeFetcher>} fetcher
 * @param {readonly string[]} packages
 * @param {string} made
 */
async function unpackServer(fetcher, packages, made) {
  const root = join(made, 'root');
  mkdirSync(root, { recursive: true });
  await fetcher.fetch(packages, root);
  const server = join(root, 'usr/bin', packages[0] ?? '');
  await addLibraries(fetcher, packages, server, root);
  const wrapper = join(made, 'redis-server');
  writeFileSync(wrapper, wrapperText(`root/usr/bin/${packages[0]}`, libraryFolders(root)));
  chmodSync(wrapper, 0o755);
}

/**
 * Adds what the binary lacks, from the packages that its own package depends on, until `ldd` finds everything.
 * @param {ReturnType<typeof makeFetcher>} fetcher
 * @param {readonly string[]} packages
 * @param {string} server
 * @param {string} root
 */
async function addLibraries(fetcher, packages, server, root) {
  const fetched = new Set(packages);
  let from = packages;
  for (;;) {
    const missing = await missingLibraries(server, root);
    if (missing.length === 0) return;
    const known = (await Promise.all(from.map((name) => fetcher.dependencies(name)))).flat();
    const owners = [...new Set(known)].filter((name) => !fetched.has(name) && missing.some(ownedBy(name)));
    if (owners.length === 0) throw new SetupTrouble(`no package found for ${missing.join(', ')}`);
    await fetcher.fetch(owners, root);
    for (const name of owners) fetched.add(name);
    from = [...fetched];
  }
}

/**
 * Debian names a library's package after its soname: libssl.so.3 is in libssl3 (Debian Policy 8.1), or in libssl3t64
 * since the change of time_t.
 * @param {string} name
 * @returns {(library: string) => boolean}
 */
function ownedBy(name) {
  const plain = name.replace(/t64$/, '').replace(/-/g, '');
  return (library) => {
    const [stem = '', version = ''] = library.split('.so.');
    return plain === `${stem}${version}`.replace(/-/g, '');
  };
}

/**
 * @param {string} server
 * @param {string} root
 * @returns {Promise<string[]>} sonames, e.g. 'libjemalloc.so.2'
 */
async function missingLibraries(server, root) {
  const path = libraryFolders(root)
    .map((folder) => join(root, '..', folder))
    .join(':');
  const { stdout } = await runChild('/usr/bin/ldd', [server], {
    env: { ...process.env, LD_LIBRARY_PATH: path },
  });
  return [...stdout.matchAll(/^\s*(\S+) => not found/gm)].map((match) => match[1] ?? '');
}

/**
 * @param {string} root
 * @returns {string[]} folders of shared libraries, relative to the folder above `root`
 */
function libraryFolders(root) {
  return ['lib', 'usr/lib'].flatMap((lib) => {
    if (!existsSync(join(root, lib))) return [];
    const inner = readdirSync(join(root, lib), { withFileTypes: true }).filter((entry) =>
      entry.isDirectory(),
    );
    const folders = [lib, ...inner.map((entry) => join(lib, entry.name))];
    return folders
      .filter((folder) => holdsLibraries(join(root, folder)))
      .map((folder) => join('root', folder));
  });
}

/** @param {string} folder */
function holdsLibraries(folder) {
  return readdirSync(folder).some((name) => /\.so(\.|$)/.test(name));
}

/**
 * A relative wrapper, so that the folder can be moved with the project; `exec` keeps the process id.
 * @param {string} server
 * @param {readonly string[]} folders
 */
function wrapperText(server, folders) {
  const path = folders.map((folder) => `$here/${folder}`).join(':');
  return `#!/bin/sh
here=$(dirname "$(readlink -f "$0")")
LD_LIBRARY_PATH="${path}\${LD_LIBRARY_PATH:+:$LD_LIBRARY_PATH}"
export LD_LIBRARY_PATH
exec "$here/${server}" "$@"
`;
}
