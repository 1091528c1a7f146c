import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';
import { readSettings } from '../../config/settings.js';
import { projectRoot } from '../../config/setup/project.mjs';

/** As much of the Compose Specification (compose-spec.io) as the file uses, and nothing else. */
const composeSchema = z.strictObject({
  services: z.record(
    z.string(),
    z.strictObject({
      image: z.string().optional(),
      build: z.strictObject({ context: z.string(), dockerfile: z.string() }).optional(),
      command: z.array(z.string()).optional(),
      restart: z.enum(['no', 'always', 'on-failure', 'unless-stopped']),
      init: z.boolean().optional(),
      stop_grace_period: z
        .string()
        .regex(/^\d+s$/)
        .optional(),
      depends_on: z
        .record(z.string(), z.strictObject({ condition: z.literal('service_healthy') }))
        .optional(),
      environment: z.record(z.string(), z.string()).optional(),
      volumes: z.array(z.string().regex(/^[a-z-]+:\/[a-z/]+$/)),
      healthcheck: z
        .strictObject({
          test: z.array(z.string()),
          interval: z.string(),
          timeout: z.string(),
          retries: z.number(),
        })
        .optional(),
    }),
  ),
  volumes: z.record(z.string(), z.null()),
});

const read = (path: string): string => readFileSync(join(projectRoot, path), 'utf8');
const compose = composeSchema.parse(parse(read('docker-compose.yml')));
const { redis, benchhand } = compose.services;

describe('docker-compose.yml', () => {
  it('gives Redis append-only storage on a volume, and evicts nothing', () => {
    expect(redis?.command?.join(' ')).toBe(
      'redis-server --appendonly yes --appendfsync always --maxmemory-policy noeviction',
    );
    expect(redis?.volumes).toEqual(['redis-data:/data']);
  });

  it('declares every volume that is used, and only those', () => {
    const used = Object.values(compose.services).flatMap((service) =>
      service.volumes.map((volume) => volume.split(':')[0]),
    );
    expect(Object.keys(compose.volumes).sort()).toEqual(used.sort());
  });

  it('starts the service once Redis answers', () => {
    expect(Object.keys(benchhand?.depends_on ?? {})).toEqual(['redis']);
    expect(redis?.healthcheck?.test).toEqual(['CMD', 'redis-cli', 'ping']);
  });

  it('sets only settings that the service knows, with values that it takes', () => {
    const environment = Object.fromEntries(
      Object.entries(benchhand?.environment ?? {}).map(([name, value]) => [name, substituted(value)]),
    );
    const reading = readSettings({ ...environment, BOT_TOKEN: '123:invented' });
    expect(reading).toMatchObject({
      ok: true,
      settings: {
        redisUrl: 'redis://redis:6379',
        filesDir: '/srv/files',
        dataDir: '/srv/data',
        mechanicIds: [],
      },
    });
    expect(environment['BOT_TOKEN']).toBe('refused');
  });

  it('keeps what it writes on volumes, in folders that its user may write', () => {
    const folders = (benchhand?.volumes ?? []).map((volume) => volume.split(':')[1] ?? '');
    expect(folders.sort()).toEqual(
      [benchhand?.environment?.['DATA_DIR'], benchhand?.environment?.['FILES_DIR']].sort(),
    );
    const dockerfile = read(benchhand?.build?.dockerfile ?? '');
    for (const folder of folders) expect(dockerfile).toMatch(new RegExp(`mkdir -p .*${folder}\\b.*chown`));
    expect(dockerfile).toContain('USER node');
  });

  it('names a start program that there is', () => {
    const [, program = ''] = /CMD .*"dist\/(.+)\.js"/.exec(read('config/Dockerfile')) ?? [];
    expect(read(`${program}.ts`)).not.toBe('');
  });
});

/** Compose's own substitution, for an empty environment: `${NAME:-default}`, and `${NAME:?why}`, which refuses. */
function substituted(value: string): string {
  return value.replace(/\$\{\w+:-([^}]*)\}/g, '$1').replace(/\$\{\w+:\?[^}]+\}/g, 'refused');
}
