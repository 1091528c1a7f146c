import { writeFile } from 'node:fs/promises';
import { conversationPrinter } from './print/conversation.js';
import { paletteFor, showsColour } from './print/palette.js';
import type { Palette } from './print/palette.js';
import { summaryLines } from './print/summary.js';
import { instantOf, play } from './player.js';
import { MECHANICS, seatPlayers } from './players.js';
import type { Players } from './players.js';
import { saveDrawn } from './drawn.js';
import { countRefusals, gatherReport, gatherTokens } from './report.js';
import { SHOP_FILE } from './scenario/cast.js';
import { SCENES, SCENES_TO_INVITE } from './scenario/scenes.js';
import type { Scene } from './scenario/scene.js';
import type { Stage } from './stage.js';
import { openStage } from './stage.js';
import { stay } from './stay.js';

export type DemoOptions = {
  /** Leave the chats open in the terminal after the play. */
  stay: boolean;
  /** Play only until everybody is in the chat. */
  fromStart: boolean;
  /** Where to keep everything. (Default: a new temporary folder) */
  folder?: string;
  /** A file to write the report to, as JSON. */
  json?: string;
};

const NARROWEST = 80;
const WIDEST = 100;
const IN_A_PIPE = 92;

/** Plays the demo; gives the exit code. */
export async function runDemo(options: DemoOptions): Promise<number> {
  const palette = paletteFor(showsColour(process.stdout, process.env));
  const write = (text: string): void => void process.stdout.write(text);
  const width = Math.min(WIDEST, Math.max(NARROWEST, process.stdout.columns ?? IN_A_PIPE));
  const scenes = options.fromStart ? SCENES_TO_INVITE : SCENES;
  const interrupted = onInterrupt();
  try {
    const stage = await openStage({
      startAt: instantOf(firstMoment(scenes)),
      shopFile: SHOP_FILE,
      mechanics: MECHANICS,
      ...(options.folder === undefined ? {} : { folder: options.folder }),
    });
    try {
      await Promise.race([interrupted.signal, perform(stage, scenes, options, { palette, write, width })]);
    } finally {
      await stage.stop();
    }
    return 0;
  } catch (error) {
    if (error instanceof Interrupted) return 130;
    write(`\n${explained(error)}\n`);
    return 1;
  } finally {
    interrupted.off();
  }
}

type Output = { palette: Palette; write: (text: string) => void; width: number };

async function perform(
  stage: Stage,
  scenes: readonly Scene[],
  options: DemoOptions,
  { palette, write, width }: Output,
): Promise<void> {
  const printer = conversationPrinter({ write, palette, width });
  const refusals = countRefusals(stage.rehearsal);
  const tokens = gatherTokens(stage.rehearsal);
  stage.rehearsal.on('chat', printer.event);
  const players = seatPlayers(stage.rehearsal);
  const begins = ({ heading }: Scene): void => printer.scene(heading);
  await play(stage, players, scenes, { begins, ended: printer.flush }).finally(printer.flush);
  if (options.stay) await stay(stage, players, { palette, write, flush: printer.flush });
  await report(stage, players, { refusals: refusals(), tokens: tokens() }, options, {
    palette,
    write,
    width,
  });
}

async function report(
  stage: Stage,
  players: Players,
  { refusals, tokens }: { refusals: number; tokens: readonly string[] },
  { json }: DemoOptions,
  { palette, write, width }: Output,
): Promise<void> {
  const gathered = await gatherReport(stage.record, players, refusals, tokens);
  const kept = { folder: stage.folder, drawn: await saveDrawn(players, stage.folder) };
  write(`${summaryLines(gathered, kept, palette, width).join('\n')}\n`);
  if (json !== undefined) await writeFile(json, JSON.stringify(gathered, null, 2));
}

function firstMoment(scenes: readonly Scene[]): { day: string; time: string } {
  const first = scenes[0]?.moments[0];
  if (first === undefined) throw new Error('a play needs a first moment');
  return first;
}

class Interrupted extends Error {}

const ENDING = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/** Ctrl-C ends the play in good order; while the stage is set up, as soon as it stands. */
function onInterrupt(): { signal: Promise<never>; off: () => void } {
  let interrupt: () => void = () => undefined;
  const signal = new Promise<never>((_, reject) => {
    interrupt = () => reject(new Interrupted());
  });
  signal.catch(() => undefined);
  for (const name of ENDING) process.once(name, interrupt);
  return {
    signal,
    off: () => {
      for (const name of ENDING) process.off(name, interrupt);
    },
  };
}

/** An error with what caused it, a line each. */
function explained(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  return error.cause === undefined ? error.message : `${error.message}\n${explained(error.cause)}`;
}
