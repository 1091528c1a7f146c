import { createServer } from 'node:http';
import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Api } from 'grammy';
import { download, FILE_LIMIT_BYTES, wholeOf } from '../../workers/download.js';
import { useBench } from '../record/support.js';
import type { WholeBot } from '../support/whole-bot.js';
import { openWholeBot } from '../support/whole-bot.js';

/** Every file under a folder with its size, but for folders. */
async function filesUnder(folder: string): Promise<string[]> {
  const found = await readdir(folder, { recursive: true, withFileTypes: true }).catch(() => []);
  return found.filter((each) => each.isFile()).map((each) => join(each.parentPath, each.name));
}

/** An external entity and an image beside it (XML 1.0, 4.2.2). */
const SVG_OF_OTHERS =
  '<!DOCTYPE svg [<!ENTITY x SYSTEM "file:///etc/passwd">]>' +
  '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><image href="file:///etc/passwd"/><text>&x;</text></svg>';

/** Nine entities, each ten times the one before. */
const SVG_OF_LAUGHS = `<!DOCTYPE svg [<!ENTITY l0 "ha">${Array.from(
  { length: 9 },
  (_, n) => `<!ENTITY l${n + 1} "${`&l${n};`.repeat(10)}">`,
).join('')}]><svg xmlns="http://www.w3.org/2000/svg"><text>&l9;</text></svg>`;

describe('what is sent as a picture and is none', () => {
  let bot: WholeBot;
  beforeAll(async () => {
    bot = await openWholeBot();
    await bot.mechanic.say('new job: Ketterby 500 single, owner Mrs Dale');
    await bot.driver.quiet();
  });
  afterAll(() => bot.stop());

  it.each([
    ['a script', Buffer.from('#!/bin/sh\nrm -rf /\n')],
    ['a page', Buffer.from('<html><script>alert(1)</script></html>')],
    // The start of a PNG that says it is 2^31-1 pixels wide and high: whoever decoded it would need 16 exabytes (PNG, 11.2.1).
    [
      'a picture of two thousand million pixels a side',
      Buffer.from('89504e470d0a1a0a0000000d494844527fffffff7fffffff0806000000', 'hex'),
    ],
    [
      'a picture of 60,000 pixels a side',
      Buffer.from('89504e470d0a1a0a0000000d494844520000ea600000ea600806000000', 'hex'),
    ],
    // Start of image, then a frame header of 17 bytes that breaks off after its length (JPEG, ITU-T T.81, B.2.2).
    ['a JPEG that breaks off', Buffer.from('ffd8ffc00011', 'hex')],
    ['a drawing that names other files', Buffer.from(SVG_OF_OTHERS)],
    ['a drawing of a thousand million laughs', Buffer.from(SVG_OF_LAUGHS)],
    ['nothing at all', Buffer.alloc(0)],
  ])('is kept as it came under its hash, never opened: %s', async (_what, bytes) => {
    const { messageId } = await bot.mechanic.document(bytes, {
      name: '../../../etc/cron.d/x',
      mime: 'image/png',
      caption: 'front rim rusty',
    });
    await bot.mechanic.waitFor(() => true, { after: messageId });
    await bot.driver.quiet();
    const files = await filesUnder(bot.filesDir);
    expect(files.every((path) => /\/[0-9a-f]{2}\/[0-9a-f]{64}$/.test(path))).toBe(true);
    expect(await bot.record.inbox.poisoned()).toEqual([]);
  });

  it('of more than the chat gives out is said to be too big, and not kept', async () => {
    const before = await filesUnder(bot.filesDir);
    await bot.mechanic.photo(Buffer.from('a small lie'), { size: 3_000_000_000, caption: 'rear rim rusty' });
    await bot.driver.quiet();
    expect(await filesUnder(bot.filesDir)).toEqual(before);
    const job = (await bot.record.streams()).find((each) => each.startsWith('job-')) ?? 'job-1';
    const { events } = await bot.record.events(job);
    expect(events.at(-1)).toMatchObject({ type: 'attachment-lost', data: { why: 'too-big' } });
  });
});

describe('a chat server that lies about a file', () => {
  const bench = useBench();
  let server: Server;
  let url = '';
  let path = 'photos/x.jpg';

  beforeAll(async () => {
    server = createServer((request, response) => {
      if (request.url?.includes('/getFile') === true) {
        response.setHeader('content-type', 'application/json');
        const result = { file_id: 'a', file_unique_id: 'b', file_size: 10, file_path: path };
        response.end(JSON.stringify({ ok: true, result }));
        return;
      }
      // It said ten bytes; it goes on until nobody listens any more.
      const more = (): void => {
        while (!response.destroyed && response.write(Buffer.alloc(1_000_000))) continue;
      };
      response.on('drain', more);
      more();
    });
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
    url = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  });
  afterAll(() => {
    server.closeAllConnections();
    server.close();
  });

  it('and sends without end is cut off at the limit, with nothing left on the disk', async () => {
    const filesDir = await bench.folder();
    const record = bench.open({ filesDir });
    const found = await download(new Api('1:x', { apiRoot: url }), '1:x', url, 'a');
    if (found.outcome !== 'found') throw new Error('it answered');
    const kept = await record.files.put(found.content, { limitBytes: FILE_LIMIT_BYTES });
    expect(kept).toEqual({ outcome: 'refused', reason: 'too-big', limitBytes: FILE_LIMIT_BYTES });
    expect(await filesUnder(filesDir)).toEqual([]);
  });

  it('and sends a voice note without end is not read to its end', async () => {
    const found = await download(new Api('1:x', { apiRoot: url }), '1:x', url, 'a');
    if (found.outcome !== 'found') throw new Error('it answered');
    expect(await wholeOf(found.content, 5_000_000)).toBeNull();
  });

  it('with a path that leads elsewhere reaches nothing but that server', async () => {
    for (path of [
      '../../../../etc/passwd',
      '//example.invalid/x',
      'http://example.invalid/x',
      '\\..\\x',
      '?x#y',
    ]) {
      const found = await download(new Api('1:x', { apiRoot: url }), '1:x', url, 'a');
      expect(found.outcome).toBe('found');
      if (found.outcome === 'found') found.content.destroy();
    }
  });
});
