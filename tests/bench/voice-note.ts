import { mkdtemp, readFile, rm, stat } from 'node:fs/promises';
import { loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Person } from '../../bot/rehearsal/person.js';
import type { Rehearsal } from '../../bot/rehearsal/rehearsal.js';
import { startRehearsal } from '../../bot/rehearsal/rehearsal.js';
import { startServiceProcess } from '../../config/demo/service-process.js';
import { projectRoot } from '../../config/setup/project.mjs';
import { noteOf, speak, speechMissing } from '../support/voices.js';
import { cpuSecondsOf } from './support/cpu-time.js';
import { median, timed } from './support/figures.js';
import { withRedis } from './support/with-redis.js';

/** From a note's arrival in the chat to the reply: through the real service, its processes and a Redis that flushes every write. */
const STARTS = 2;
const NOTES_A_START = 6;
const SAID =
  'the petrol tank is rusty inside and the nearside fork stanchion is pitted, send them both to the plater by Friday';

const missing = speechMissing();
if (missing !== null) {
  console.log(`voice note bench: skipped, ${missing}`);
  process.exit(0);
}

/** Sends the note and gives the ms until what was heard stands in the chat. */
async function replyTime(mechanic: Person, note: Buffer, seconds: number): Promise<number> {
  return timed(async () => {
    const { messageId } = await mechanic.voice(note, { seconds: Math.round(seconds) });
    await mechanic.waitFor(({ text }) => text.startsWith('I heard:'), {
      after: messageId,
      timeoutMs: 60_000,
    });
  });
}

type NoteTime = { readonly ms: number; readonly cpuMs: number };
type Spoken = { readonly note: Buffer; readonly seconds: number };
type Place = { readonly redisUrl: string; readonly folder: string; readonly rehearsal: Rehearsal };

/** Starts the service, sends notes one after the other and gives their times. */
async function timesOfAStart(place: Place, { note, seconds }: Spoken, notes: number): Promise<NoteTime[]> {
  const { redisUrl, folder, rehearsal } = place;
  const service = startServiceProcess({
    name: 'benchhand',
    args: ['--only', 'bot,workers'],
    program: join(projectRoot, 'dist/config/commands/start.js'),
    env: {
      ...{ ...process.env, BOT_API_ROOT: rehearsal.url, REDIS_URL: redisUrl, BOT_TOKEN: rehearsal.token },
      ...{ MECHANIC_IDS: '501', DATA_DIR: folder, LOG_LEVEL: 'warn' },
    },
    logFile: join(folder, 'benchhand.log'),
  });
  const cpuMs = (): number => {
    const { own, children } = cpuSecondsOf(service.pid);
    return 1000 * (own + children);
  };
  try {
    await rehearsal.polled({ timeoutMs: 30_000 });
    const mechanic = rehearsal.person({ id: 501, firstName: 'Hettie', started: true });
    const said = await mechanic.say('new job: Ketterby 500 single');
    await mechanic.waitFor(() => true, { after: said.messageId });
    const times: NoteTime[] = [];
    for (let count = 0; count < notes; count += 1) {
      const before = cpuMs();
      const ms = await replyTime(mechanic, note, seconds);
      times.push({ ms, cpuMs: cpuMs() - before });
      await rehearsal.quiet();
    }
    return times;
  } finally {
    await service.stop();
  }
}

const inSeconds = (ms: number): string => `${(ms / 1000).toFixed(2)} s`;

function report(what: string, starts: readonly (readonly NoteTime[])[]): void {
  const firsts = starts.flatMap(([first]) => (first === undefined ? [] : [inSeconds(first.ms)])).join(', ');
  const later = starts.flatMap((times) => times.slice(1));
  const ms = later.map((one) => one.ms);
  const cpu = later.map((one) => one.cpuMs);
  console.log(`  ${what}: first after a start ${firsts}
    ${later.length} later ones: best ${inSeconds(Math.min(...ms))}, half within ${inSeconds(median(ms))}, worst ${inSeconds(Math.max(...ms))}
    processor time of the service and what it starts: best ${inSeconds(Math.min(...cpu))}, half within ${inSeconds(median(cpu))} (load ${loadavg()[0]?.toFixed(1)})`);
}

await withRedis(async ({ url: redisUrl }) => {
  const folder = await mkdtemp(join(tmpdir(), 'benchhand-note-time-'));
  const rehearsal = await startRehearsal({ now: Date.now });
  const place = { redisUrl, folder, rehearsal };
  try {
    const [wav, path] = [join(folder, 'said.wav'), join(folder, 'said.oga')];
    await speak(SAID, 'flite', 'slt', wav);
    // flite's files are 16 kHz, 16 bits, one channel.
    const seconds = (await stat(wav)).size / 32_000;
    console.log(`A note of ${seconds.toFixed(1)} s (OGG/Opus) to the reply in the chat; aim: under 2 s`);
    for (const [what, snr] of [
      ['quiet', null],
      ['workshop, 15 dB', 15],
    ] as const) {
      await noteOf(wav, path, snr);
      const spoken = { note: await readFile(path), seconds };
      if (snr === null)
        report('the shop new, its model still to be made', [await timesOfAStart(place, spoken, 2)]);
      const starts: NoteTime[][] = [];
      for (let start = 0; start < STARTS; start += 1)
        starts.push(await timesOfAStart(place, spoken, NOTES_A_START));
      report(what, starts);
    }
  } finally {
    await rehearsal.stop();
    await rm(folder, { recursive: true, force: true });
  }
});
