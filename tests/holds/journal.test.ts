import { EventEmitter } from 'node:events';
import { expect, it } from 'vitest';
import { keepJournal } from '../../config/year/journal.js';

/** What a rehearsal tells its listeners. */
function rehearsed() {
  const emitter = new EventEmitter();
  const on = (event: string, listener: (happening: never) => void) => {
    emitter.on(event, listener as (happening: unknown) => void);
    return () => undefined;
  };
  const { happened } = keepJournal({ on, updateCount: 6 });
  const message = (byBot: boolean, over: object): void =>
    void emitter.emit('chat', {
      ...{ type: 'message', chatId: 2001, at: 5, byBot },
      message: { message_id: 3, ...over },
    });
  const call = (over: object): void =>
    void emitter.emit('call', {
      ...{ method: 'sendMessage', params: { chat_id: 2001 }, at: 5, outcome: 'ok', errorCode: null },
      ...over,
    });
  return { happened, message, call };
}

it('has a call that may or may not have gone, with the chat that it was to', () => {
  const { happened, call } = rehearsed();
  call({});
  call({ outcome: 'error', errorCode: 429 });
  call({ method: 'getMe', outcome: 'lost' });
  expect(happened).toEqual([]);
  call({ outcome: 'lost' });
  call({ outcome: 'error', errorCode: 500 });
  const unanswered = { kind: 'unanswered', at: 5, chat: 2001 };
  expect(happened).toEqual([unanswered, unanswered]);
});

it('tells what is said from what is shown, and a picture of an album from one by itself', () => {
  const { happened, message } = rehearsed();
  message(false, { text: 'timeline' });
  message(false, { caption: 'tank', media_group_id: '1' });
  message(true, { text: 'Here it is' });
  message(true, { caption: 'Garwick' });
  expect(happened).toMatchObject([
    { kind: 'act', update: 7, text: 'timeline', isInAlbum: false },
    { kind: 'act', text: 'tank', isInAlbum: true },
    { kind: 'written', text: 'Here it is' },
    { kind: 'shown', text: 'Garwick' },
  ]);
});
