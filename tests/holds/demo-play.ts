import { rm } from 'node:fs/promises';
import { instantOf, play } from '../../config/demo/player.js';
import { chatIdOf, MECHANICS, seatPlayers } from '../../config/demo/players.js';
import type { Report } from '../../config/demo/report.js';
import { gatherReport } from '../../config/demo/report.js';
import { SHOP_FILE } from '../../config/demo/scenario/cast.js';
import { SCENES } from '../../config/demo/scenario/scenes.js';
import { openStage } from '../../config/demo/stage.js';
import { countMarked, lookBack, sayAgain } from '../../config/year/ending.js';
import { leftInOutbox, outOfOrder } from '../../config/year/invariants/record.js';
import type { Happened } from '../../config/year/journal.js';
import { keepJournal } from '../../config/year/journal.js';
import type { Chances, Parts } from '../../config/year/kills.js';
import { APART, JOINT } from '../../config/year/kills.js';
import { diceOf } from '../../config/year/names.js';
import { PATIENCE_MS, UNDER_FAULTS, withKills } from '../../config/year/under-kills.js';
import { randomFrom } from '../../src/plan/random.js';

/** What a play of the demo's four months left behind. */
export type Played = {
  report: Report;
  happened: readonly Happened[];
  /** Messages that the record has as perhaps repeated. */
  marked: number;
  /** What does not hold of it, a sentence each. */
  breaches: readonly string[];
};

const AT_THE_BENCH = [chatIdOf('hettie'), chatIdOf('joss')];
const FETCHED: readonly string[] = ['photo', 'album', 'voice'];

/** Plays the demo's four months, the workers in one process or each in its own; things die by the chances, as the seed has it. */
export async function playDemo(seed: number, chances: Chances, parts: Parts): Promise<Played> {
  const first = SCENES[0]?.moments[0];
  if (first === undefined) throw new Error('a play needs a first moment');
  const stage = await openStage({
    ...{ startAt: instantOf(first), shopFile: SHOP_FILE, mechanics: MECHANICS },
    parts: parts === 'apart' ? APART : JOINT,
    ...{ env: UNDER_FAULTS, patienceMs: PATIENCE_MS, fsync: 'always' as const },
  });
  try {
    const journal = keepJournal(stage.rehearsal);
    const { happened } = journal;
    const killer = withKills(stage, journal, {
      ...{ seed, chances, parts },
      isChased: (chat) => !AT_THE_BENCH.includes(chat),
    });
    const players = seatPlayers(stage.rehearsal);
    const nothing = (): void => undefined;
    await play(stage, players, SCENES, {
      ...{ begins: nothing, ended: nothing },
      meanwhile: ({ kind }) => (FETCHED.includes(kind) ? killer.inFile() : killer.inTalk()),
    });
    const report = await gatherReport(stage.record, players, 0);
    const breaches = [
      ...(await lookBack(stage, happened, {
        isKnown: ({ chat }) => chat !== chatIdOf('stranger'),
      })),
      ...(await leftInOutbox(stage.record)),
      ...(await outOfOrder(stage.record)),
      ...(await sayAgain(stage, happened, diceOf(randomFrom(seed)))),
    ];
    return { report, happened, marked: await countMarked(stage.record), breaches };
  } finally {
    await stage.stop();
    await rm(stage.folder, { recursive: true, force: true });
  }
}
