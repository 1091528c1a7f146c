import { DateTime } from 'luxon';
import type { ChatEvent } from '../../../bot/rehearsal/happenings.js';
import type { BenchMessage } from '../../../bot/rehearsal/bench-message.js';
import { ZONE } from '../shop-time.js';
import { whoOf } from '../players.js';
import { member } from '../scenario/cast.js';
import type { Palette } from './palette.js';
import { toldTogether } from './together.js';
import type { Spoken } from './together.js';
import { wrap } from './wrap.js';

export type Printer = {
  scene: (heading: string) => void;
  /** Prints what people see in the chats, as it happens. */
  event: (event: ChatEvent) => void;
  /** Prints what was held back. */
  flush: () => void;
};

export type PrinterOptions = { write: (text: string) => void; palette: Palette; width: number };

const THEIRS = '       ';
const OURS = '          │ ';
const QUOTED_AT_MOST = 44;

/** Prints a conversation: days and scenes as headings, then who, when and what, with the buttons in brackets. */
export function conversationPrinter({ write, palette, width }: PrinterOptions): Printer {
  let day = '';
  let speaking = '';
  let pendingScene: string | null = null;

  const line = (text = ''): void => write(`${text.trimEnd()}\n`);
  const body = (indent: string, text: string, isBold: (offset: number) => boolean = () => false): void => {
    for (const { text: words, from } of wrap(text, width - indent.length)) {
      line(palette.faint(indent) + emphasised(words, from, isBold, palette));
    }
  };

  function dayHeading(at: number): void {
    const local = DateTime.fromMillis(at, { zone: ZONE, locale: 'en-GB' });
    const today = local.toFormat('cccc d LLLL yyyy');
    if (today === day && pendingScene === null) return;
    line();
    if (pendingScene !== null) line(palette.scene(`~ ${pendingScene} ~`));
    if (pendingScene !== null && today !== day) line();
    if (today !== day) line(palette.day(today));
    pendingScene = null;
    day = today;
    speaking = '';
  }

  /** A line with time and name, left out where the same person goes on in the same chat at the same minute. */
  function header(event: ChatEvent, byBot: boolean, others: readonly number[] = []): void {
    dayHeading(event.at);
    const time = DateTime.fromMillis(event.at, { zone: ZONE }).toFormat('HH:mm');
    const who = whoOf(event.chatId);
    const now = `${time} ${event.chatId} ${byBot}`;
    if (now === speaking) return;
    if (!byBot || !speaking.startsWith(`${time} ${event.chatId} `)) line();
    speaking = now;
    if (byBot) {
      const to = [event.chatId, ...others].map(name).join(' and ');
      line(`${palette.faint(time)}     ${palette.us('Benchhand')} to ${to}`);
      return;
    }
    const part = who === null ? '' : palette.faint(` (${member(who).part})`);
    line(`${palette.faint(time)}  ${name(event.chatId)}${part}`);
  }

  function message(event: Spoken, others: readonly number[] = []): void {
    const { message: said, byBot, type } = event;
    header(event, byBot, others);
    const indent = byBot ? OURS : THEIRS;
    for (const note of notesOf(said, byBot)) line(indent + palette.faint(note));
    if (type === 'edit') line(indent + palette.faint('(changes their message to)'));
    const text = said.text ?? said.caption ?? '';
    if (text !== '') body(indent, text, boldIn(said));
    for (const row of said.reply_markup?.inline_keyboard ?? []) {
      buttons(
        indent,
        row.map(({ text: label }) => label),
      );
    }
  }

  function press({ at, chatId, text }: Extract<ChatEvent, { type: 'press' }>): void {
    dayHeading(at);
    const time = DateTime.fromMillis(at, { zone: ZONE }).toFormat('HH:mm');
    line();
    line(`${palette.faint(time)}  ${name(chatId)} presses ${palette.button(`[ ${text} ]`)}`);
    speaking = `${time} ${chatId} false`;
  }

  function name(chatId: number): string {
    const who = whoOf(chatId);
    return palette.person(who, who === null ? `chat ${chatId}` : nameOf(who));
  }

  function buttons(indent: string, labels: readonly string[]): void {
    let used = 0;
    let shown = '';
    for (const label of labels) {
      const wide = label.length + 5;
      if (used > 0 && used + wide > width - indent.length) {
        line(palette.faint(indent) + shown);
        [used, shown] = [0, ''];
      }
      shown += `${palette.button(`[ ${label} ]`)} `;
      used += wide;
    }
    line(palette.faint(indent) + shown);
  }

  /** What we said at one instant is held back until it is over. */
  let held: Spoken[] = [];
  let actor: number | null = null;

  function flush(): void {
    const told = toldTogether(held, actor);
    held = [];
    for (const { event, others } of told) message(event, others);
  }

  function hold(event: Spoken): void {
    if (held[0] !== undefined && held[0].at !== event.at) {
      flush();
      actor = null;
    }
    held.push(event);
  }

  function show(event: ChatEvent): void {
    switch (event.type) {
      case 'message':
      case 'edit':
        if (event.type === 'edit' && event.byBot) return;
        if (event.byBot) return hold(event);
        flush();
        actor = event.chatId;
        return message(event);
      case 'press':
        flush();
        actor = event.chatId;
        return press(event);
      case 'toast':
        if (event.text === '') return;
        flush();
        header(event, true);
        return body(OURS, event.text);
      case 'delete':
      case 'action':
        return;
    }
  }

  return {
    scene: (heading) => {
      flush();
      pendingScene = heading;
    },
    event: show,
    flush,
  };
}

function nameOf(who: NonNullable<ReturnType<typeof whoOf>>): string {
  const { firstName, lastName } = member(who);
  return lastName === undefined ? firstName : `${firstName} ${lastName}`;
}

function notesOf(message: BenchMessage, byBot: boolean): string[] {
  const notes: string[] = [];
  const answered = message.reply_to_message;
  const quoted = (answered?.text ?? answered?.caption ?? '').split('\n')[0] ?? '';
  if (answered !== undefined && !byBot) {
    notes.push(
      `(answering “${quoted.slice(0, QUOTED_AT_MOST)}${quoted.length > QUOTED_AT_MOST ? '…' : ''}”)`,
    );
  }
  if (message.photo !== undefined) notes.push('(photo)');
  if (message.voice !== undefined) notes.push(`(voice note, ${message.voice.duration} s)`);
  if (message.document !== undefined) notes.push(`(file: ${message.document.file_name ?? 'unnamed'})`);
  if (message.sticker !== undefined) notes.push(`(sticker ${message.sticker.emoji ?? ''})`);
  return notes;
}

function boldIn(message: BenchMessage): (offset: number) => boolean {
  const runs = (message.entities ?? message.caption_entities ?? []).filter(({ type }) => type === 'bold');
  return (at) => runs.some(({ offset, length }) => at >= offset && at < offset + length);
}

function emphasised(
  words: string,
  from: number,
  isBold: (offset: number) => boolean,
  palette: Palette,
): string {
  let shown = '';
  for (let start = 0; start < words.length;) {
    const bold = isBold(from + start);
    let end = start + 1;
    while (end < words.length && isBold(from + end) === bold) end += 1;
    const run = words.slice(start, end);
    shown += bold ? palette.bold(run) : run;
    start = end;
  }
  return shown;
}
