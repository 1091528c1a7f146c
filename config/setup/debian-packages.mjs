// @ts-check
import { existsSync, mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { runChild } from './child.mjs';
import { say } from './say.mjs';
import { SetupTrouble } from './trouble.mjs';

const NEEDED = ['/usr/bin/apt-get', '/usr/bin/apt-cache', '/usr/bin/dpkg-deb', '/usr/bin/ldd'];

/** Whether this is a Debian or Ubuntu that packages can be fetched on, by any user. */
export function hasDebianTools() {
  return NEEDED.every((tool) => existsSync(tool));
}

/**
 * A way to fetch packages that leaves the system as it is: the system's sources and keys, but lists, cache and
 * locks in folders of our own under `dir`. First with the system's lists; where these are missing or too old, with
 * lists fetched for us alone.
 * @param {string} dir an empty folder to work in, removed by the caller
 */
export function makeFetcher(dir) {
  const system = writeConfig(join(dir, 'system'), '/var/lib/apt/lists');
  const ours = writeConfig(join(dir, 'ours'), null);
  let config = system;

  /**
   * @param {string} tool
   * @param {readonly string[]} args
   * @param {string} [cwd]
   */
  const apt = (tool, args, cwd = dir) =>
    runChild(`/usr/bin/${tool}`, ['-q', '-c', config, ...args], {
      cwd,
      env: { ...process.env, LC_ALL: 'C' },
    });

  /**
   * Downloads packages and unpacks them into `root`; gives whether that worked.
   * @param {readonly string[]} names
   * @param {string} root
   */
  const attempt = async (names, root) => {
    const debs = join(dir, 'debs');
    rmSync(debs, { recursive: true, force: true });
    mkdirSync(debs, { recursive: true });
    const { code, stderr } = await apt('apt-get', ['download', ...names], debs);
    if (code !== 0) return stderr.trim();
    for (const file of readdirSync(debs)) await unpack(join(debs, file), root);
    return null;
  };

  async function useOwnLists() {
    config = ours;
    say("Fetching the distribution's package lists, for this project alone ...");
    // A source that can't be reached (a third party's) must not stop the others: judged by what comes next.
    await apt('apt-get', ['update']);
  }

  return {
    /**
     * @param {readonly string[]} names
     * @param {string} root
     */
    async fetch(names, root) {
      const first = await attempt(names, root);
      if (first === null) return;
      if (config === ours) throw new SetupTrouble(`Could not fetch ${names.join(', ')}: ${lastLine(first)}`);
      await useOwnLists();
      const second = await attempt(names, root);
      if (second !== null) throw new SetupTrouble(`Could not fetch ${names.join(', ')}: ${lastLine(second)}`);
    },

    /**
     * The packages to fetch so that these run here: themselves and what they need that the system lacks.
     * @param {readonly string[]} names
     * @returns {Promise<string[]>}
     */
    async needed(names) {
      const args = [
        'install',
        '--print-uris',
        '--no-install-recommends',
        '-o',
        'Debug::NoLocking=true',
        ...names,
      ];
      let listed = await apt('apt-get', args);
      if (listed.code !== 0 && config !== ours) {
        await useOwnLists();
        listed = await apt('apt-get', args);
      }
      if (listed.code !== 0) {
        throw new SetupTrouble(`Could not find ${names.join(', ')}: ${lastLine(listed.stderr)}`);
      }
      // Lines of apt-get(8)'s --print-uris: the address in quotes, the file's name (package_version_architecture.deb), its size.
      const found = [...listed.stdout.matchAll(/^'\S+' ([^_\s]+)_\S+ \d+/gm)].map((match) => match[1] ?? '');
      return [...new Set([...names, ...found])];
    },

    /**
     * The names of what a package depends on, alternatives too.
     * @param {string} name
     * @returns {Promise<string[]>}
     */
    async dependencies(name) {
      const { stdout } = await apt('apt-cache', ['depends', '--no-recommends', '--no-suggests', name]);
      return [...stdout.matchAll(/^\s+\|?(?:Pre)?Depends: ([^\s<>]+)$/gm)].map((match) => match[1] ?? '');
    },
  };
}

/**
 * Read last, so that `#clear` also takes away the system's own hooks after an update.
 * @param {string} dir
 * @param {string | null} lists the lists to read; null for our own
 */
function writeConfig(dir, lists) {
  mkdirSync(join(dir, 'state/lists/partial'), { recursive: true });
  mkdirSync(join(dir, 'cache/archives/partial'), { recursive: true });
  const path = join(dir, 'apt.conf');
  const lines = [
    `Dir::State "${dir}/state";`,
    'Dir::State::status "/var/lib/dpkg/status";',
    ...(lists === null ? [] : [`Dir::State::lists "${lists}";`]),
    `Dir::Cache "${dir}/cache";`,
    `Dir::Log "${dir}";`,
    'APT::Sandbox::User "";',
    'Acquire::Languages "none";',
    'Acquire::Retries "3";',
    '#clear APT::Update::Pre-Invoke;',
    '#clear APT::Update::Post-Invoke;',
    '#clear APT::Update::Post-Invoke-Success;',
  ];
  writeFileSync(path, `${lines.join('\n')}\n`);
  return path;
}

/**
 * @param {string} deb
 * @param {string} root
 */
async function unpack(deb, root) {
  const { code, stderr } = await runChild('/usr/bin/dpkg-deb', ['-x', deb, root]);
  if (code !== 0) throw new SetupTrouble(`Could not unpack ${deb}: ${lastLine(stderr)}`);
}

/** @param {string} text */
function lastLine(text) {
  return text.trim().split('\n').at(-1) ?? '';
}
