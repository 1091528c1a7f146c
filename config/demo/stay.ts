import { readFile } from 'node:fs/promises';
import { createInterface } from 'node:readline';
import { DateTime } from 'luxon';
import type { Palette } from './print/palette.js';
import { ZONE } from './shop-time.js';
import type { Players } from './players.js';
import { member, WHO } from './scenario/cast.js';
import type { Who } from './scenario/cast.js';
import type { Stage } from './stage.js';

/** `flush` prints what the printer held back. */
type Output = { palette: Palette; write: (text: string) => void; flush: () => void };

type Chair = { stage: Stage; players: Players; who: Who; output: Output };

const USAGE = `The chats are open. Type as the person shown; what you type goes to Benchhand.
  /as NAME or number  speak as ${WHO.join(', ')}
  /buttons            the buttons in sight, with numbers
  /3                  press button 3
  /photo PATH words   send a photo with a caption
  /day +3             move the clock on by days (a working morning, 09:00)
  /start …            as in any chat: what a deep link sends
  /?                  these lines again
  /quit               end (so does Ctrl-D)`;

/** Leaves the chats open: each line typed, or piped in, is said or done by somebody, and the shop comes to rest before the next. */
export async function stay(stage: Stage, players: Players, output: Output): Promise<void> {
  const chair: Chair = { stage, players, who: 'hettie', output };
  const { palette, write } = output;
  const isTerminal = process.stdin.isTTY;
  const lines = createInterface({ input: process.stdin, terminal: false });
  const prompt = (): void => {
    if (isTerminal) write(`\n${palette.person(chair.who, member(chair.who).firstName)}> `);
  };
  write(`\n${USAGE}\n`);
  prompt();
  for await (const line of lines) {
    const text = line.trim();
    if (text === '/quit') break;
    if (text !== '') await take(chair, text);
    prompt();
  }
  lines.close();
}

/** A mistake at the keyboard is said and forgotten; a service that has died ends the play. */
async function take(chair: Chair, text: string): Promise<void> {
  const { stage, output } = chair;
  try {
    await Promise.race([obey(chair, text), stage.failed]);
  } catch (error) {
    if (!(error instanceof KeyboardMistake)) throw error;
    output.write(`${output.palette.faint(error.message)}\n`);
  }
}

class KeyboardMistake extends Error {}

async function obey(chair: Chair, text: string): Promise<void> {
  const [, command = '', rest = ''] = /^\/(\S+)\s*(.*)$/s.exec(text) ?? [];
  if (command === 'as') return sitDown(chair, rest);
  if (command === 'buttons') return showButtons(chair);
  if (command === '?') return chair.output.write(`${USAGE}\n`);
  await doInChat(chair, text, command, rest);
  await chair.stage.driver.moveTo(chair.stage.driver.now());
  chair.output.flush();
  if (buttonsOf(chair).length > 0) showButtons(chair);
}

async function doInChat(chair: Chair, text: string, command: string, rest: string): Promise<void> {
  const seat = chair.players[chair.who];
  if (command === 'day') return moveOn(chair, rest);
  if (command === 'photo') {
    const [path = '', ...words] = rest.split(' ');
    await seat.photo(await fileAt(path), { caption: words.join(' ') });
    return;
  }
  if (/^\d+$/.test(command)) {
    const button = buttonsOf(chair)[Number(command) - 1];
    if (button === undefined)
      throw new KeyboardMistake(`There is no button ${command}; /buttons shows them.`);
    await seat.press(button.data, { message: button.messageId });
    return;
  }
  await seat.say(text);
}

async function fileAt(path: string): Promise<Buffer> {
  try {
    return await readFile(path);
  } catch {
    throw new KeyboardMistake(`There is no file ${path === '' ? 'named' : path}: /photo PATH words`);
  }
}

function sitDown(chair: Chair, said: string): void {
  const wanted = said.toLowerCase();
  const who = WHO.find(
    (each, index) =>
      wanted === String(index + 1) ||
      [each, member(each).firstName, member(each).part].some((name) => name.toLowerCase() === wanted),
  );
  if (who === undefined) {
    const list = WHO.map((each, index) => `${index + 1} ${each} (${member(each).part})`).join(', ');
    throw new KeyboardMistake(`Speak as whom? ${list}`);
  }
  chair.who = who;
  chair.output.write(
    `${chair.output.palette.faint(`You are ${member(who).firstName}, ${member(who).part}.`)}\n`,
  );
}

async function moveOn({ stage, output }: Chair, said: string): Promise<void> {
  const days = Number(/^\+?(\d{1,3})$/.exec(said.trim())?.[1]);
  if (!Number.isInteger(days) || days < 1) throw new KeyboardMistake('By how many days? /day +3');
  const now = DateTime.fromMillis(stage.driver.now(), { zone: ZONE });
  await stage.driver.moveTo(now.plus({ days }).set({ hour: 9, minute: 0 }).toMillis());
  const then = DateTime.fromMillis(stage.driver.now(), { zone: ZONE, locale: 'en-GB' });
  output.write(`${output.palette.faint(`It is ${then.toFormat('cccc d LLLL yyyy, HH:mm')}.`)}\n`);
}

type NumberedButton = { messageId: number; data: string; label: string };

const MESSAGES_WITH_BUTTONS = 4;

/** The buttons of the last few messages that have any, newest message first. */
function buttonsOf({ players, who }: Chair): NumberedButton[] {
  const messages = players[who].messages().filter(({ buttons }) => buttons.length > 0);
  return messages
    .slice(-MESSAGES_WITH_BUTTONS)
    .reverse()
    .flatMap(({ messageId, buttons }) =>
      buttons.flat().flatMap(({ data, text }) => (data === null ? [] : [{ messageId, data, label: text }])),
    );
}

function showButtons(chair: Chair): void {
  const { palette, write } = chair.output;
  const shown = buttonsOf(chair).map(({ label }, index) => `/${index + 1} ${label}`);
  write(`${palette.faint(shown.length > 0 ? shown.join('   ') : 'No buttons in sight.')}\n`);
}
