import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, utimesSync, writeFileSync } from 'node:fs';
import { chmod, mkdtemp, rm, symlink } from 'node:fs/promises';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { runChild } from '../../config/setup/child.mjs';
import { needsRedis } from '../../config/setup/commands.mjs';
import { isSameInstall } from '../../config/setup/dependencies.mjs';
import { findRedis, isNewEnough, serverVersion } from '../../config/setup/find-redis.mjs';
import { takeLock, withLock } from '../../config/setup/lock.mjs';
import { nodeTrouble } from '../../config/setup/node-version.mjs';
import { lookUp, markOf } from '../../config/setup/processes.mjs';
import { projectRoot } from '../../config/setup/project.mjs';
import { digestOf, listSources, outputsOf } from '../../config/setup/sources.mjs';

let dir: string;
beforeEach(async () => {
  dir = await mkdtemp(join(tmpdir(), 'benchhand-set-up-'));
});
afterEach(() => rm(dir, { recursive: true, force: true }));

describe('the check of Node', () => {
  it.each(['20.0.0', '22.11.1', '100.0.0'])('passes %s', (version) => {
    expect(nodeTrouble(version)).toBeNull();
  });
  it.each(['18.20.4', '8.0.0'])('says what to install instead of %s', (version) => {
    expect(nodeTrouble(version)).toMatch(new RegExp(`Node 20 or newer; this is ${version}`));
  });
});

describe('the search for a server', () => {
  async function fake(name: string, says: string): Promise<NodeJS.ProcessEnv> {
    const path = join(dir, name);
    writeFileSync(path, `#!/bin/sh\necho '${says}'\n`);
    await chmod(path, 0o755);
    return { PATH: `/nonexistent:${dir}` };
  }

  it('takes a redis-server or valkey-server on PATH', async () => {
    const valkey = await fake(
      'valkey-server',
      'Valkey server v=8.1.1 sha=00000000:0 malloc=jemalloc-5.3.0 bits=64',
    );
    expect(findRedis(valkey)).toEqual({ path: join(dir, 'valkey-server'), version: '8.1.1' });
    const redis = await fake(
      'redis-server',
      'Redis server v=6.2.14 sha=00000000:0 malloc=jemalloc-5.2.1 bits=64',
    );
    expect(findRedis(redis)).toEqual({ path: join(dir, 'redis-server'), version: '6.2.14' });
  });

  it('passes over one that is too old, or is something else', async () => {
    const old = await fake(
      'redis-server',
      'Redis server v=6.0.16 sha=00000000:0 malloc=jemalloc-5.2.1 bits=64',
    );
    expect(findRedis(old)?.path).not.toBe(join(dir, 'redis-server'));
    await fake('redis-server', 'hello');
    expect(serverVersion(join(dir, 'redis-server'))).toBeNull();
    expect(serverVersion(join(dir, 'nothing'))).toBeNull();
  });

  it('compares versions by number', () => {
    expect(['6.2.0', '6.10.0', '7.0.15', '10.0.0'].map(isNewEnough)).toEqual([true, true, true, true]);
    expect(['6.1.9', '5.9.9', '2.6.2', ''].map(isNewEnough)).toEqual([false, false, false, false]);
  });

  it('is made only for commands that need one', () => {
    expect(['hear', 'hear-score', 'solve'].map((name) => needsRedis(name, {}))).toEqual([
      false,
      false,
      false,
    ]);
    expect(['demo', 'test', 'start', 'export'].map((name) => needsRedis(name, {}))).toEqual([
      true,
      true,
      true,
      true,
    ]);
    const given = { REDIS_URL: 'redis://localhost' };
    expect(['demo', 'start', 'export'].map((name) => needsRedis(name, given))).toEqual([true, false, false]);
  });
});

describe('the lock', () => {
  const path = (): string => join(dir, 'inner/work.lock');
  const holder = (mark: object): void => {
    mkdirSync(path(), { recursive: true });
    writeFileSync(join(path(), 'holder.json'), JSON.stringify({ token: 'another', ...mark }));
  };
  const silentFor = (seconds: number): void => {
    const then = Date.now() / 1000 - seconds;
    utimesSync(path(), then, then);
  };

  it('is held by one at a time, across processes', async () => {
    const script = `
      import { withLock } from ${JSON.stringify(join(projectRoot, 'config/setup/lock.mjs'))};
      import { mkdirSync, rmdirSync } from 'node:fs';
      const [path, room] = process.argv.slice(1);
      for (let turn = 0; turn < 40; turn += 1)
        await withLock(path, async () => { mkdirSync(room); await new Promise(setImmediate); rmdirSync(room); });
    `;
    const args = ['--input-type=module', '-e', script, path(), join(dir, 'room')];
    const results = await Promise.all([1, 2, 3].map(() => runChild(process.execPath, args)));
    expect(results).toEqual(results.map(() => ({ code: 0, stdout: '', stderr: '' })));
    expect(readdirSync(join(dir, 'inner'))).toEqual([]);
  });

  it('of a dead process is taken over by one alone, however many find it', async () => {
    const script = `
      import { takeLock } from ${JSON.stringify(join(projectRoot, 'config/setup/lock.mjs'))};
      process.stdin.once('data', () => {
        const taking = takeLock(process.argv[1]);
        process.stdout.write(taking.ok ? 'taken' : 'refused');
        process.stdin.once('data', () => process.exit());
      });
      process.stderr.write('ready');
    `;
    holder({ host: hostname(), pid: spawnSync('true').pid, started: '1' });
    const racers = [1, 2, 3].map(() =>
      spawn(process.execPath, ['--input-type=module', '-e', script, path()]),
    );
    const first = (stream: NodeJS.ReadableStream): Promise<string> =>
      new Promise((resolve) => stream.once('data', (data) => resolve(String(data))));
    await Promise.all(racers.map((racer) => first(racer.stderr)));
    const answers = racers.map((racer) => first(racer.stdout));
    for (const racer of racers) racer.stdin.write('now');
    expect((await Promise.all(answers)).sort()).toEqual(['refused', 'refused', 'taken']);
    const ends = racers.map((racer) => new Promise((resolve) => racer.once('exit', resolve)));
    for (const racer of racers) racer.stdin.write('end');
    await Promise.all(ends);
    expect(readdirSync(join(dir, 'inner'))).toEqual([]);
  });

  it('is let go when the work fails', async () => {
    await expect(withLock(path(), () => Promise.reject(new Error('no')))).rejects.toThrow('no');
    expect(existsSync(path())).toBe(false);
  });

  it('of a process that died, or whose number is used again, is taken over', () => {
    const { pid } = spawnSync('true');
    for (const mark of [
      { pid, started: '1' },
      { pid: process.pid, started: '1' },
    ]) {
      holder({ host: hostname(), ...mark });
      const taking = takeLock(path());
      expect(taking.ok).toBe(true);
      if (taking.ok) taking.release();
    }
    expect(readdirSync(join(dir, 'inner'))).toEqual([]);
  });

  it('of a living process is kept, however long it has been silent', () => {
    holder({ host: hostname(), ...markOf(process.pid) });
    silentFor(3_600);
    expect(takeLock(path())).toMatchObject({ ok: false, holder: { pid: process.pid } });
  });

  it('of another host is kept while it beats, and taken over after a minute of silence', () => {
    holder({ host: 'another.example', pid: 1, started: '1' });
    silentFor(30);
    expect(takeLock(path()).ok).toBe(false);
    silentFor(61);
    const taking = takeLock(path());
    expect(taking.ok).toBe(true);
    if (taking.ok) taking.release();
  });
});

describe('the mark of a process', () => {
  it('tells running from gone', async () => {
    const child = spawn('sleep', ['60']);
    const mark = markOf(child.pid ?? 0);
    expect(lookUp(mark)).toBe('running');
    const gone = new Promise((resolve) => child.once('exit', resolve));
    child.kill('SIGKILL');
    await gone;
    expect(lookUp(mark)).toBe('gone');
  });
});

describe('the comparison with the lock file', () => {
  const entry = { version: '1.0.0', integrity: 'sha512-a' };
  const wanted = { packages: { '': { version: '0.1.0' }, 'node_modules/a': entry } };

  it('is satisfied by the same packages', () => {
    expect(isSameInstall(wanted, { packages: { 'node_modules/a': { ...entry } } })).toBe(true);
  });
  it.each([
    ['one is missing', {}],
    ['one is of another version', { 'node_modules/a': { ...entry, version: '1.0.1' } }],
    ['one is not what was signed', { 'node_modules/a': { ...entry, integrity: 'sha512-b' } }],
    ['one is there that is not wanted', { 'node_modules/a': entry, 'node_modules/b': entry }],
  ])('is not satisfied where %s', (_what, packages) => {
    expect(isSameInstall(wanted, { packages })).toBe(false);
  });
  it("does not ask for other systems' packages", () => {
    const packages = { ...wanted.packages, 'node_modules/other-system': { ...entry, optional: true } };
    expect(isSameInstall({ packages }, { packages: { 'node_modules/a': entry } })).toBe(true);
  });
});

describe('the sources', () => {
  beforeEach(() => {
    for (const [path, text] of [
      ['package.json', '{}'],
      ['package-lock.json', '{}'],
      ['tsconfig.json', '{}'],
      ['src/a.ts', 'export {};'],
      ['src/words/parts.yaml', '- fork'],
      ['src/words/README.md', 'words'],
      ['tests/a.test.ts', ''],
      ['tests/references/a.json', '{}'],
      ['config/eslint.config.js', ''],
      ['elsewhere/b.ts', ''],
    ] as const) {
      mkdirSync(join(dir, path, '..'), { recursive: true });
      writeFileSync(join(dir, path), text);
    }
  });

  it("are code, and the data beside it; not pages, nor the tests' references", () => {
    expect(listSources(dir)).toEqual({
      code: ['src/a.ts', 'tests/a.test.ts'],
      data: ['src/words/parts.yaml'],
    });
  });

  it.each(['src/a.ts', 'src/words/parts.yaml', 'package-lock.json', 'tsconfig.json', 'src/new.ts'])(
    'have another digest when %s changes',
    (path) => {
      const before = digestOf(dir, listSources(dir));
      expect(digestOf(dir, listSources(dir))).toBe(before);
      writeFileSync(join(dir, path), 'changed text');
      expect(digestOf(dir, listSources(dir))).not.toBe(before);
    },
  );

  it('follow no links out of the project', async () => {
    await symlink(join(dir, 'elsewhere'), join(dir, 'src/linked'));
    expect(listSources(dir).code).toEqual(['src/a.ts', 'tests/a.test.ts']);
  });

  it('become what the compiler makes of them', () => {
    expect(['src/a.ts', 'config/setup/run.mjs', 'src/b.mts', 'src/c.d.ts'].map(outputsOf)).toEqual([
      ['src/a.js', 'src/a.js.map'],
      ['config/setup/run.mjs', 'config/setup/run.mjs.map'],
      ['src/b.mjs', 'src/b.mjs.map'],
      [],
    ]);
  });
});

describe('a child process', () => {
  it('hands on its code, or the shell code of its signal', async () => {
    expect((await runChild('sh', ['-c', 'echo out; echo err >&2; exit 3'])).code).toBe(3);
    expect((await runChild('sh', ['-c', 'kill -TERM $$'])).code).toBe(143);
    await expect(runChild('/nonexistent/program', [])).rejects.toThrow('ENOENT');
  });
});
