import { GrammyError, InputFile, type Api } from 'grammy';
import { describe, expect, it } from 'vitest';
import { startRehearsal } from '../../../bot/rehearsal/rehearsal.js';
import { botOn, handClock, rehearse } from './stage.js';
import { gif } from './pictures.js';

// Source of every limit here: Bot API documentation, at the method or type that the test names.

async function bench() {
  const clock = handClock();
  const rehearsal = await rehearse(clock);
  const ada = rehearsal.person({ firstName: 'Ada', started: true });
  const { api } = botOn(rehearsal);
  return { clock, rehearsal, ada, api, chat: ada.chatId };
}

const refusal = (code: number, description: string) => ({ error_code: code, description });
const button = (callback_data: string) => ({
  reply_markup: { inline_keyboard: [[{ text: 'Press', callback_data }]] },
});

describe('text', () => {
  it('sendMessage: 4096 characters pass, 4097 do not', async () => {
    const { api, chat } = await bench();
    expect((await api.sendMessage(chat, 'é'.repeat(4096))).text).toHaveLength(4096);
    await expect(api.sendMessage(chat, 'x'.repeat(4097))).rejects.toMatchObject(
      refusal(400, 'Bad Request: message is too long'),
    );
  });

  it('sendMessage: empty text is refused', async () => {
    const { api, chat } = await bench();
    await expect(api.sendMessage(chat, ' \n')).rejects.toMatchObject(
      refusal(400, 'Bad Request: message text is empty'),
    );
  });

  it('sendPhoto: captions of 1024 characters pass, 1025 do not', async () => {
    const { api, chat } = await bench();
    const photo = () => new InputFile(gif(4, 3), 'a.gif');
    expect((await api.sendPhoto(chat, photo(), { caption: 'x'.repeat(1024) })).caption).toHaveLength(1024);
    await expect(api.sendPhoto(chat, photo(), { caption: 'x'.repeat(1025) })).rejects.toMatchObject(
      refusal(400, 'Bad Request: message caption is too long'),
    );
  });

  it('MessageEntity: kept with their place, moved with the white space cut off', async () => {
    const { api, chat, ada } = await bench();
    await api.sendMessage(chat, '  bold 🔧', { entities: [{ type: 'bold', offset: 2, length: 4 }] });
    expect(ada.last()?.raw).toMatchObject({
      text: 'bold 🔧',
      entities: [{ type: 'bold', offset: 0, length: 4 }],
    });
  });

  it.each([
    ['beyond the end', [{ type: 'bold', offset: 3, length: 9 }]],
    ['through a UTF-16 pair', [{ type: 'bold', offset: 0, length: 1 }]],
    [
      'crossing each other',
      [
        { type: 'bold', offset: 0, length: 4 },
        { type: 'italic', offset: 2, length: 4 },
      ],
    ],
    ['of no known kind', [{ type: 'loud', offset: 0, length: 2 }]],
  ])('MessageEntity: refused %s', async (_what, entities) => {
    const { api, chat } = await bench();
    const sent = api.raw.sendMessage({ chat_id: chat, text: '🔧 bolt', entities: entities as never });
    await expect(sent).rejects.toMatchObject({ error_code: 400 });
  });

  it('refuses a parse mode, since people’s words are never pasted into marked-up text', async () => {
    const { api, chat } = await bench();
    await expect(api.sendMessage(chat, '<b>x</b>', { parse_mode: 'HTML' })).rejects.toMatchObject(
      refusal(400, 'Bad Request: unsupported parse_mode'),
    );
  });
});

describe('buttons', () => {
  it('InlineKeyboardButton: callback_data of 64 bytes passes, 65 or none do not', async () => {
    const { api, chat } = await bench();
    await api.sendMessage(chat, 'ok', button('é'.repeat(32)));
    const invalid = refusal(400, 'Bad Request: BUTTON_DATA_INVALID');
    await expect(api.sendMessage(chat, 'long', button(`${'é'.repeat(32)}x`))).rejects.toMatchObject(invalid);
    await expect(api.sendMessage(chat, 'none', button(''))).rejects.toMatchObject(invalid);
  });

  it('answerCallbackQuery: 200 characters, a known query, in time', async () => {
    const { api, chat, ada, clock } = await bench();
    await api.sendMessage(chat, 'Press', button('go'));
    const { queryId } = await ada.press('go');
    await expect(api.answerCallbackQuery(queryId, { text: 'x'.repeat(201) })).rejects.toMatchObject(
      refusal(400, 'Bad Request: MESSAGE_TOO_LONG'),
    );
    const tooOld = refusal(
      400,
      'Bad Request: query is too old and response timeout expired or query ID is invalid',
    );
    await expect(api.answerCallbackQuery('12345')).rejects.toMatchObject(tooOld);
    clock.forward(3600);
    await expect(api.answerCallbackQuery(queryId)).rejects.toMatchObject(tooOld);
  });
});

describe('edits and deletion', () => {
  it('editMessageText: not modified, not found, not one’s own, not a text', async () => {
    const { api, chat, ada } = await bench();
    const { message_id: id } = await api.sendMessage(chat, 'same', button('go'));
    await expect(api.editMessageText(chat, id, 'same', button('go'))).rejects.toThrow(
      /message is not modified/,
    );
    await api.editMessageText(chat, id, 'same');
    expect(ada.last()?.buttons).toEqual([]);
    await expect(api.editMessageText(chat, 99, 'new')).rejects.toThrow(/message to edit not found/);
    const { messageId } = await ada.say('mine');
    await expect(api.editMessageText(chat, messageId, 'new')).rejects.toThrow(/message can't be edited/);
    const photo = await api.sendPhoto(chat, new InputFile(gif(4, 3), 'a.gif'));
    await expect(api.editMessageText(chat, photo.message_id, 'new')).rejects.toThrow(/there is no text/);
  });

  it('editMessageCaption and editMessageReplyMarkup change only what they name', async () => {
    const { api, chat, ada } = await bench();
    const photo = await api.sendPhoto(chat, new InputFile(gif(4, 3), 'a.gif'), {
      caption: 'before',
      ...button('go'),
    });
    await api.editMessageCaption(chat, photo.message_id, { caption: 'after', ...button('go') });
    expect(ada.last()).toMatchObject({ text: 'after', kind: 'photo', edits: [{ text: 'before' }] });
    await api.editMessageReplyMarkup(chat, photo.message_id, button('stop'));
    expect(ada.buttons().map(({ data }) => data)).toEqual(['stop']);
    expect(ada.last()?.text).toBe('after');
  });

  it('deleteMessage: for 48 hours, theirs too in their own chat', async () => {
    const { api, chat, ada, clock } = await bench();
    const { messageId } = await ada.say('password');
    const { message_id: id } = await api.sendMessage(chat, 'mine');
    await api.deleteMessage(chat, messageId);
    expect(ada.messages().map(({ text }) => text)).toEqual(['mine']);
    await expect(api.deleteMessage(chat, messageId)).rejects.toThrow(/message to delete not found/);
    clock.forward(48 * 3600);
    await expect(api.deleteMessage(chat, id)).rejects.toThrow(/can't be deleted/);
  });

  it('reply_parameters: quotes the message without its own reply, and must find it', async () => {
    const { api, chat, ada } = await bench();
    const { messageId } = await ada.say('first');
    const { messageId: second } = await ada.say('second', { replyTo: messageId });
    const sent = await api.sendMessage(chat, 'third', { reply_parameters: { message_id: second } });
    expect(sent.reply_to_message).toMatchObject({ text: 'second' });
    expect(sent.reply_to_message).not.toHaveProperty('reply_to_message');
    const lost = { message_id: 99 };
    await expect(api.sendMessage(chat, 'x', { reply_parameters: lost })).rejects.toThrow(/replied not found/);
    await api.sendMessage(chat, 'x', { reply_parameters: { ...lost, allow_sending_without_reply: true } });
    expect(ada.last()?.replyTo).toBeNull();
  });
});

describe('who may be written to', () => {
  it('refuses an unknown chat, one not yet started, and one that blocked the bot', async () => {
    const { rehearsal, api, ada, chat } = await bench();
    const notFound = refusal(400, 'Bad Request: chat not found');
    await expect(api.sendMessage(424242, 'hello')).rejects.toMatchObject(notFound);
    const bea = rehearsal.person({ firstName: 'Bea' });
    await expect(api.sendMessage(bea.chatId, 'hello')).rejects.toMatchObject(notFound);
    await expect(api.getChat(bea.chatId)).rejects.toMatchObject(notFound);
    await bea.open('hello');
    await api.sendMessage(bea.chatId, 'hello');
    await ada.block();
    await expect(api.sendMessage(chat, 'hello')).rejects.toMatchObject(
      refusal(403, 'Forbidden: bot was blocked by the user'),
    );
    await ada.unblock();
    await api.sendMessage(chat, 'hello again');
    const updates = await api.getUpdates();
    expect(updates.flatMap((update) => update.my_chat_member?.new_chat_member.status ?? [])).toEqual([
      'kicked',
      'member',
    ]);
  });

  it('answers 401 to a wrong token, 404 to a wrong method, in any letter case otherwise', async () => {
    const { rehearsal } = await bench();
    const call = async (path: string) => (await fetch(`${rehearsal.url}/${path}`)).json();
    expect(await call('bot1:wrong/getMe')).toEqual({
      ok: false,
      error_code: 401,
      description: 'Unauthorized',
    });
    expect(await call(`bot${rehearsal.token}/getNothing`)).toEqual({
      ok: false,
      error_code: 404,
      description: 'Not Found: method not found',
    });
    expect(await call(`bot${rehearsal.token}/GETME`)).toMatchObject({ ok: true, result: { is_bot: true } });
  });

  it('takes parameters from the query, a form, and JSON alike', async () => {
    const { rehearsal, chat, ada } = await bench();
    const url = `${rehearsal.url}/bot${rehearsal.token}/sendMessage`;
    const fields = { chat_id: String(chat), reply_markup: JSON.stringify(button('go').reply_markup) };
    await fetch(`${url}?${new URLSearchParams({ ...fields, text: 'query' }).toString()}`);
    await fetch(url, { method: 'POST', body: new URLSearchParams({ ...fields, text: 'form' }) });
    const headers = { 'content-type': 'application/json' };
    await fetch(url, { method: 'POST', headers, body: JSON.stringify({ chat_id: chat, text: 'json' }) });
    expect(ada.messages().map(({ text, buttons }) => [text, buttons.length])).toEqual([
      ['query', 1],
      ['form', 1],
      ['json', 0],
    ]);
    const broken = await fetch(url, { method: 'POST', headers, body: '{"chat_id"' });
    expect([broken.status, await broken.json()]).toMatchObject([400, { ok: false, error_code: 400 }]);
  });
});

describe('menus', () => {
  it('setMyCommands: names and descriptions are checked', async () => {
    const { api } = await bench();
    const set = (command: string, description: string) => api.setMyCommands([{ command, description }]);
    await set('x'.repeat(32), 'd'.repeat(256));
    await expect(set('Jobs', 'Jobs')).rejects.toThrow(/BOT_COMMAND_INVALID/);
    await expect(set('x'.repeat(33), 'long')).rejects.toThrow(/BOT_COMMAND_INVALID/);
    await expect(set('jobs', '')).rejects.toThrow(/BOT_COMMAND_DESCRIPTION_INVALID/);
    const many = Array.from({ length: 101 }, (_, index) => ({ command: `c${index}`, description: 'd' }));
    await expect(api.setMyCommands(many)).rejects.toThrow(/BOT_COMMANDS_TOO_MUCH/);
  });

  it('BotCommandScope: the narrowest list shows, in the person’s language first', async () => {
    const { api, rehearsal, ada, chat } = await bench();
    const list = (command: string) => [{ command, description: `does ${command}` }];
    const bea = rehearsal.person({ firstName: 'Bea', started: true, languageCode: 'de' });
    await api.setMyCommands(list('all'));
    await api.setMyCommands(list('private'), { scope: { type: 'all_private_chats' } });
    await api.setMyCommands(list('alle'), { language_code: 'de' });
    await api.setMyCommands(list('bench'), { scope: { type: 'chat', chat_id: chat } });
    expect(ada.menu()).toEqual(list('bench'));
    expect(bea.menu()).toEqual(list('private'));
    expect(ada.inGroup().menu()).toEqual(list('all'));
    await api.setMyCommands(list('privat'), { scope: { type: 'all_private_chats' }, language_code: 'de' });
    expect(bea.menu()).toEqual(list('privat'));
    await api.deleteMyCommands({ scope: { type: 'chat', chat_id: chat } });
    expect(ada.menu()).toEqual(list('private'));
    expect(await api.getMyCommands()).toEqual(list('all'));
    expect(await api.getMyCommands({ language_code: 'de' })).toEqual(list('alle'));
    await expect(api.getMyCommands({ scope: { type: 'chat', chat_id: 5 } })).rejects.toThrow(
      /chat not found/,
    );
  });

  it('takes the menu button, the description, and a chat action', async () => {
    const { api, rehearsal, chat } = await bench();
    const actions: string[] = [];
    rehearsal.on('chat', (event) => void (event.type === 'action' && actions.push(event.action)));
    expect(await api.setChatMenuButton({ chat_id: chat, menu_button: { type: 'commands' } })).toBe(true);
    expect(await api.setMyDescription('A hand at the bench')).toBe(true);
    await expect(api.setMyDescription('x'.repeat(513))).rejects.toMatchObject({ error_code: 400 });
    await api.sendChatAction(chat, 'typing');
    await expect(api.sendChatAction(chat, 'singing' as never)).rejects.toThrow(/wrong parameter action/);
    expect(actions).toEqual(['typing']);
  });
});

describe('loopback', () => {
  it.each(['0.0.0.0', '192.168.1.5', '::', 'example.test'])('refuses to listen on %s', async (host) => {
    await expect(startRehearsal({ now: () => 0, host })).rejects.toThrow(/loopback only/);
  });
});

it('a refusal is grammY’s own error, with method and code', async () => {
  const { api, chat }: { api: Api; chat: number } = await bench();
  const error: unknown = await api.sendMessage(chat, '').catch((reason: unknown) => reason);
  expect(error).toBeInstanceOf(GrammyError);
  expect(error).toMatchObject({ method: 'sendMessage', error_code: 400 });
});
