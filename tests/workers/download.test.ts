import type { AddressInfo } from 'node:net';
import { createServer } from 'node:http';
import type { Server } from 'node:http';
import { Api } from 'grammy';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { download, wholeOf } from '../../workers/download.js';

const PAGE = '<p>Please sign in to this network</p>';
const TOKEN = '700000001:a-token-of-nobodys';

let server: Server;
let root: string;
/** What the server gives as the file, and how long it says that it is (Bot API documentation, File: `file_size` is optional). */
let given: { body: string; bytes: number | undefined };

beforeAll(async () => {
  server = createServer((request, response) => {
    const file = { file_id: 'f', file_unique_id: 'u', file_path: 'voice/1.oga', file_size: given.bytes };
    if (request.url?.startsWith('/file/')) response.end(given.body);
    else response.end(JSON.stringify({ ok: true, result: file }));
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  root = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
});
afterAll(() => {
  server.closeAllConnections();
  server.close();
});

async function fetched(): Promise<string | undefined> {
  const found = await download(new Api(TOKEN, { apiRoot: root }), TOKEN, root, 'f');
  if (found.outcome !== 'found') throw new Error(found.outcome);
  return (await wholeOf(found.content))?.toString();
}

it.each([
  ['of the length that it was down with', 9],
  ['of which no length was said', undefined],
])('a file %s is taken', async (_, bytes) => {
  given = { body: 'OggS-note', bytes };
  expect(await fetched()).toBe('OggS-note');
});

it('somebody’s web page in place of a file is an error, so that it is tried again and never kept', async () => {
  given = { body: PAGE, bytes: 20_480 };
  await expect(fetched()).rejects.toThrow(`the chat gave ${PAGE.length} bytes of a file of 20480`);
});
