import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pino } from 'pino';
import { openDesk } from '../../src/desk/open-desk.js';
import { event } from '../../src/job/events.js';
import type { JobEvent } from '../../src/job/events.js';
import type { ShopRecord } from '../../src/record/index.js';
import { openRecord } from '../../src/record/index.js';
import { shopEvent } from '../../src/shop/events.js';
import { DEFAULT_POLICY } from '../../src/shop/policy.js';
import type { TestRedis } from '../support/redis.js';
import { median, printTable, timed } from './support/figures.js';
import { withRedis } from './support/with-redis.js';

const SIZES = [1_000, 10_000, 50_000] as const;
const LINES_A_JOB = 20;
const DUE = 20;
const OPENED = Date.parse('2026-03-02T09:00:00Z');
/** Mondays on which twenty promises are missed by a working day, so far apart that no chaser of one falls on another. */
const MISSED = [
  '2026-03-23',
  '2026-04-20',
  '2026-05-11',
  '2026-06-01',
  '2026-06-22',
  '2026-07-13',
  '2026-08-03',
];
const FAR = '2027-12-01';

/** A shop with so many open promises, twenty of which fall due on each of the Mondays. */
async function fill(record: ShopRecord, promises: number): Promise<void> {
  const suppliers = Array.from({ length: DUE }, (_, n) => `supplier-${n}`);
  for (const [n, id] of suppliers.entries()) await record.people.put(id, { id, name: id, chatId: 9_000 + n });
  const jobs = Array.from({ length: promises / LINES_A_JOB }, (_, n) => `job-${n}` as const);
  const shop = [
    ...suppliers.map((person) => shopEvent('person-added', { person, role: 'supplier' })),
    ...jobs.map((job, n) =>
      shopEvent('job-registered', { job: job.slice(4), title: `Machine ${n}`, owner: null }),
    ),
  ];
  await record.append({
    stream: 'shop',
    expectedVersion: 0,
    commandId: 'shop',
    events: shop,
    at: OPENED,
    by: 'bench',
  });
  for (const [n, stream] of jobs.entries()) {
    const events = jobEvents(n, suppliers);
    const firstDue = events.flatMap(({ type, data }) =>
      type === 'line-opened' && data.due !== FAR ? [data.due] : [],
    );
    const dueAt = Date.parse(`${firstDue[0] ?? FAR}T09:00:00Z`);
    await record.append({
      stream,
      expectedVersion: 0,
      commandId: stream,
      events,
      at: OPENED,
      by: 'bench',
      dueAt,
    });
  }
}

/** A job with twenty things out; its first lines are those that fall due, one a Monday, in the first twenty jobs. */
function jobEvents(job: number, suppliers: readonly string[]): JobEvent[] {
  const items = Array.from({ length: LINES_A_JOB }, (_, n) => n + 1);
  return [
    event('job-opened', {
      title: `Machine ${job}`,
      model: null,
      template: 'single',
      owner: null,
      arrivedOn: '2026-03-02',
    }),
    ...items.flatMap((item) => [
      event('item-listed', {
        item,
        part: 'front wheel rim',
        called: null,
        group: null,
        place: [],
        count: null,
      }),
      event('line-opened', {
        ...{
          line: `line-${item}`,
          kind: 'sublet' as const,
          item,
          processes: [],
          count: null,
          on: '2026-03-02',
        },
        supplier: suppliers[job % DUE] ?? null,
        due: (job < DUE ? MISSED[item - 1] : undefined) ?? FAR,
      }),
    ]),
  ];
}

/** The ms that each Monday's wake takes, once the first has warmed it up; and how many messages each came to. */
async function wakes(
  redis: TestRedis,
  filesDir: string,
  promises: number,
): Promise<{ ms: number[]; told: number[] }> {
  const record = openRecord({ redis: redis.connect(), shop: `due-${promises}`, filesDir });
  await fill(record, promises);
  const desk = openDesk({
    ...{ record, log: pino({ level: 'silent' }), policyFromFile: DEFAULT_POLICY, canListen: false },
    ...{ secretOf: () => 'secret', linkFor: (secret) => secret },
  });
  const found: { ms: number[]; told: number[] } = { ms: [], told: [] };
  for (const day of MISSED) {
    const at = Date.parse(`${day}T10:00:00Z`) + 24 * 3_600_000;
    found.ms.push(await timed(async () => found.told.push(await desk.wake(at))));
  }
  await record.close();
  return { ms: found.ms.slice(1), told: found.told };
}

await withRedis(async (redis) => {
  const filesDir = await mkdtemp(join(tmpdir(), 'benchhand-due-'));
  const medians: number[] = [];
  for (const size of SIZES) {
    const { ms, told } = await wakes(redis, filesDir, size);
    medians.push(median(ms));
    console.log(`${size} open promises: ${told.join(', ')} messages, each wake ${median(ms).toFixed(1)} ms`);
  }
  await rm(filesDir, { recursive: true, force: true });
  printTable(
    `what ${DUE} promises that fall due cost as others stay open`,
    'the same with 1,000 open promises',
    SIZES.slice(1).map((size, index) => ({
      what: `${size} open`,
      ours: medians[index + 1] ?? NaN,
      baseline: medians[0] ?? NaN,
      ...{ unit: 'ms', atMost: 1.5 },
    })),
  );
});
