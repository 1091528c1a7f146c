import { instant } from './shop-time.js';
import type { ChatSeat } from '../../bot/rehearsal/chat-seat.js';
import { findButton, labelsInSight } from './offered.js';
import { benchPhoto } from './pictures.js';
import type { Players } from './players.js';
import type { ButtonPick, Deed, Label, Moment, Scene } from './scenario/scene.js';
import type { Stage } from './stage.js';
import { voiceNote } from './voice-note.js';

export type PlayListener = {
  /** Called as a scene begins. */
  begins: (scene: Scene) => void;
  /** Called after each moment, when the shop is at rest. */
  ended: () => void;
  /** Called while what somebody did is under way. (Default: nothing) */
  meanwhile?: Meanwhile;
};

type Meanwhile = (deed: Deed) => Promise<void>;

type PlayedOn = Pick<Stage, 'driver' | 'record' | 'failed'>;

/** The instant of a moment, Unix milliseconds. */
export const instantOf = ({ day, time }: Pick<Moment, 'day' | 'time'>): number => instant(day, time);

/**
 * Plays scenes: the clock is moved to each moment, what falls due before it happens, then somebody does something and
 * the shop comes to rest.
 */
export async function play(
  stage: PlayedOn,
  players: Players,
  scenes: readonly Scene[],
  { begins, ended, meanwhile = () => Promise.resolve() }: PlayListener,
): Promise<void> {
  const labels = new Map<Label, number>();
  for (const scene of scenes) {
    begins(scene);
    for (const moment of scene.moments) {
      await Promise.race([playMoment({ stage, players, labels, meanwhile }, moment), stage.failed]);
      ended();
    }
  }
}

async function playMoment(setting: Setting, moment: Moment): Promise<void> {
  const { driver } = setting.stage;
  try {
    await driver.moveTo(instantOf(moment));
    await act(moment.deed, setting.players[moment.who], setting);
    if (!isInSteps(moment.deed)) await setting.meanwhile(moment.deed);
    await driver.moveTo(driver.now());
  } catch (error) {
    const { day, time, who, deed } = moment;
    throw new Error(`the play stopped on ${day} at ${time} with ${who}: ${JSON.stringify(deed)}`, {
      cause: error,
    });
  }
}

type Setting = { stage: PlayedOn; players: Players; labels: Map<Label, number>; meanwhile: Meanwhile };

/** Deeds of several steps, each of which comes to rest before the next. */
const isInSteps = ({ kind }: Deed): boolean => kind === 'voice' || kind === 'presses-all';

async function act(deed: Deed, seat: ChatSeat, setting: Setting): Promise<void> {
  const { stage, players, labels } = setting;
  const meanwhile = (): Promise<void> => setting.meanwhile(deed);
  const answering = (label: Label | undefined) =>
    label === undefined ? {} : { replyTo: known(labels, label) };
  switch (deed.kind) {
    case 'says': {
      const { messageId } = await seat.say(deed.text, answering(deed.replyTo));
      if (deed.as !== undefined) labels.set(deed.as, messageId);
      return;
    }
    case 'photo': {
      const caption = deed.caption === undefined ? {} : { caption: deed.caption };
      await seat.photo(benchPhoto(deed.of), { ...caption, ...answering(deed.replyTo) });
      return;
    }
    case 'album': {
      const parts = deed.of.map((of) => ({ bytes: benchPhoto(of) }));
      await seat.album(parts, { caption: deed.caption, on: deed.on });
      return;
    }
    case 'voice':
      return speak(stage, seat, deed.seconds, meanwhile);
    case 'edits':
      await seat.edit(known(labels, deed.message), deed.text);
      return;
    case 'presses':
      if (!(await press(stage, seat, deed.button))) {
        throw new Error(`no button does that; in sight are: ${labelsInSight(seat)}`);
      }
      return;
    case 'presses-all':
      return pressAll(stage, seat, deed, meanwhile);
    case 'takes-invitation':
      await seat.say(`/start ${lastInvitation(players)}`);
  }
}

function known(labels: ReadonlyMap<Label, number>, label: Label): number {
  const found = labels.get(label);
  if (found === undefined) throw new Error(`no message is called '${label}'`);
  return found;
}

/** Says something aloud. What was heard is undone, since it is typed next: the play goes on as where nobody listens. */
async function speak(
  stage: PlayedOn,
  seat: ChatSeat,
  seconds: number,
  meanwhile: () => Promise<void>,
): Promise<void> {
  await seat.voice(await voiceNote(), { seconds });
  await meanwhile();
  await stage.driver.quiet();
  if (seat.last()?.text.startsWith('I heard:') === true) await press(stage, seat, { do: 'undo' });
}

async function press({ record }: PlayedOn, seat: ChatSeat, pick: ButtonPick): Promise<boolean> {
  const button = await findButton(record, seat, pick);
  if (button === null) return false;
  await seat.press(button.data, { message: button.messageId });
  return true;
}

async function pressAll(
  stage: PlayedOn,
  seat: ChatSeat,
  { button, atMost }: Extract<Deed, { kind: 'presses-all' }>,
  meanwhile: () => Promise<void>,
): Promise<void> {
  for (let pressed = 0; pressed < atMost; pressed += 1) {
    if (!(await press(stage, seat, button))) return;
    await meanwhile();
    await stage.driver.quiet();
  }
}

/** The secret of the link that a mechanic was last given. */
function lastInvitation({ hettie }: Players): string {
  const links = hettie.messages().flatMap(({ text }) => /\?start=([\w-]+)/.exec(text)?.[1] ?? []);
  const last = links.at(-1);
  if (last === undefined) throw new Error('nobody was invited yet');
  return last;
}
