import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isLoopback, readSettings } from '../../config/settings.js';

const TOKEN = '987654321:AAHx-invented_secret_0123456789-abcd';

const problemsOf = (env: Record<string, string>): readonly string[] => {
  const reading = readSettings({ BOT_TOKEN: TOKEN, ...env });
  return reading.ok ? [] : reading.problems;
};

describe('settings', () => {
  it('have defaults for all but the token', () => {
    expect(readSettings({ BOT_TOKEN: TOKEN })).toEqual({
      ok: true,
      settings: {
        botToken: TOKEN,
        botApiRoot: 'https://api.telegram.org',
        redisUrl: null,
        mechanicIds: [],
        shopFile: null,
        filesDir: 'data/files',
        dataDir: './data',
        backUpDir: 'data/backups',
        shopKey: 'shop',
        logLevel: 'info',
        speech: null,
        rehearsalClock: false,
        workerConcurrency: 10,
        workerLockMs: 30_000,
        chatTimeoutSeconds: 60,
      },
    });
  });

  it('are read as they are meant', () => {
    const reading = readSettings({
      BOT_TOKEN: ` ${TOKEN}\n`,
      BOT_API_ROOT: 'http://127.0.0.1:8081/',
      REDIS_URL: 'unix:///run/redis.sock',
      MECHANIC_IDS: '11, 22,11',
      SHOP_FILE: 'shop.yaml',
      DATA_DIR: '/srv/bench',
      SHOP_KEY: 'north_2',
      LOG_LEVEL: 'debug',
      SPEECH_COMMAND: 'recognise --quick',
      REHEARSAL_CLOCK: 'Yes',
      WORKER_CONCURRENCY: '4',
      WORKER_LOCK_SECONDS: '2',
      CHAT_TIMEOUT_SECONDS: '20',
    });
    expect(reading).toEqual({
      ok: true,
      settings: {
        botToken: TOKEN,
        botApiRoot: 'http://127.0.0.1:8081',
        redisUrl: 'unix:///run/redis.sock',
        mechanicIds: [11, 22],
        shopFile: 'shop.yaml',
        filesDir: '/srv/bench/files',
        dataDir: '/srv/bench',
        backUpDir: null,
        shopKey: 'north_2',
        logLevel: 'debug',
        speech: { command: 'recognise --quick' },
        rehearsalClock: true,
        workerConcurrency: 4,
        workerLockMs: 2_000,
        chatTimeoutSeconds: 20,
      },
    });
  });

  it.each([
    ['BOT_TOKEN', 'not-a-token'],
    ['BOT_TOKEN', ':secret'],
    ['BOT_API_ROOT', 'api.example'],
    ['BOT_API_ROOT', 'ftp://api.example'],
    ['REDIS_URL', 'http://localhost:6379'],
    ['REDIS_URL', 'localhost:6379'],
    ['REDIS_URL', 'unix://'],
    ['MECHANIC_IDS', 'anna'],
    ['MECHANIC_IDS', '1,,2'],
    ['MECHANIC_IDS', '-100123'],
    ['MECHANIC_IDS', '1.5'],
    ['MECHANIC_IDS', '99999999999999999999'],
    ['SHOP_FILE', 'a\0b'],
    ['FILES_DIR', 'a\0b'],
    ['DATA_DIR', 'a\0b'],
    ['BACKUP_DIR', 'a\0b'],
    ['SHOP_KEY', 'two words'],
    ['SHOP_KEY', 'x'.repeat(65)],
    ['LOG_LEVEL', 'loud'],
    ['SPEECH_URL', 'recogniser'],
    ['REHEARSAL_CLOCK', 'maybe'],
    ['WORKER_CONCURRENCY', '0'],
    ['WORKER_CONCURRENCY', '101'],
    ['WORKER_CONCURRENCY', 'many'],
    ['WORKER_LOCK_SECONDS', '1e3'],
    ['WORKER_LOCK_SECONDS', '601'],
    ['CHAT_TIMEOUT_SECONDS', '1'],
  ])('%s=%s is refused by one line with its name and a right example', (name, value) => {
    const problems = problemsOf({ [name]: value });
    expect(problems).toHaveLength(1);
    const [, said, example] = /^(\w+) .+; for example \w+=(.+)$/s.exec(problems[0] ?? '') ?? [];
    expect(said).toBe(name);
    expect(
      problemsOf({
        [name]: example ?? '',
        ...(name === 'REHEARSAL_CLOCK' ? { BOT_API_ROOT: 'http://localhost' } : {}),
      }),
    ).toEqual([]);
  });

  it('name a folder for back-ups, in a rehearsal too', () => {
    const env = { BOT_TOKEN: TOKEN, BACKUP_DIR: '/srv/safe', BOT_API_ROOT: 'http://localhost' };
    for (const more of [{}, { REHEARSAL_CLOCK: 'yes' }]) {
      expect(readSettings({ ...env, ...more })).toMatchObject({ settings: { backUpDir: '/srv/safe' } });
    }
  });

  it('without a token are refused, unless the command needs none', () => {
    for (const env of [{}, { BOT_TOKEN: '' }, { BOT_TOKEN: '  ' }]) {
      expect(readSettings(env)).toEqual({
        ok: false,
        problems: [expect.stringMatching(/^BOT_TOKEN is not set;/)],
      });
      expect(readSettings(env, { token: false })).toMatchObject({ ok: true, settings: { botToken: '' } });
    }
    expect(readSettings({ BOT_TOKEN: 'wrong' }, { token: false }).ok).toBe(false);
  });

  it('take an empty value for none', () => {
    expect(readSettings({ BOT_TOKEN: TOKEN, REDIS_URL: '', SHOP_KEY: ' ', WORKER_CONCURRENCY: '' })).toEqual(
      readSettings({ BOT_TOKEN: TOKEN }),
    );
  });

  it('tell every problem at once', () => {
    expect(problemsOf({ BOT_TOKEN: 'x', LOG_LEVEL: 'loud', SHOP_KEY: '?' })).toHaveLength(3);
  });

  it('allow a rehearsal clock only with a chat server on this machine', () => {
    expect(problemsOf({ REHEARSAL_CLOCK: 'true' })).toEqual([expect.stringContaining('REHEARSAL_CLOCK')]);
    expect(problemsOf({ REHEARSAL_CLOCK: 'true', BOT_API_ROOT: 'http://127.0.0.1.example:80' })).toHaveLength(
      1,
    );
    for (const root of ['http://localhost:1', 'http://127.0.0.1:1', 'http://127.1.2.3', 'http://[::1]:9'])
      expect(problemsOf({ REHEARSAL_CLOCK: 'true', BOT_API_ROOT: root })).toEqual([]);
  });

  it('name one recogniser at most', () => {
    expect(problemsOf({ SPEECH_COMMAND: 'recognise', SPEECH_URL: 'http://localhost:9000' })).toEqual([
      expect.stringContaining('SPEECH_URL'),
    ]);
  });

  it('never show a token in a problem, whatever is given', () => {
    const secret = fc.stringMatching(/^[A-Za-z0-9_-]{20,40}$/);
    fc.assert(
      fc.property(
        secret,
        fc.constantFrom('BOT_TOKEN', 'BOT_API_ROOT', 'REDIS_URL', 'SPEECH_URL', 'SHOP_KEY'),
        (word, name) => {
          const reading = readSettings({ BOT_TOKEN: `123:${word}!`, [name]: `123:${word}!` });
          expect(reading.ok).toBe(false);
          expect(JSON.stringify(reading)).not.toContain(word);
        },
      ),
    );
  });

  it('know what is on this machine', () => {
    expect(['http://localhost', 'http://127.0.0.1:80', 'https://[::1]'].map(isLoopback)).toEqual([
      true,
      true,
      true,
    ]);
    expect(
      ['http://localhost.example', 'http://10.0.0.1', 'http://128.0.0.1', 'nonsense'].map(isLoopback),
    ).toEqual([false, false, false, false]);
  });
});
