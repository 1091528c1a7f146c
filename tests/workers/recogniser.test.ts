import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { recogniserFor } from '../../workers/recogniser.js';

const heard = { text: 'nearside footrest bent', doubts: [] };

let folder: string;
let note: string;
let script: string;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'benchhand-recogniser-'));
  note = join(folder, 'note.oga');
  script = join(folder, 'recognise.mjs');
  await writeFile(note, 'nearside  footrest\nbent');
  await writeFile(
    script,
    "import { readFileSync } from 'node:fs'; console.log(readFileSync(process.argv[2], 'utf8'));",
  );
});

afterAll(() => rm(folder, { recursive: true, force: true }));

it('listens by a command that is given the file and prints what it heard', async () => {
  const recognise = recogniserFor({ command: `${process.execPath} ${script}` });
  expect(await recognise(note, 'audio/ogg')).toEqual(heard);
});

it('hears nothing where the command prints nothing, and fails where it fails', async () => {
  expect(await recogniserFor({ command: '/bin/true' })(note, 'audio/ogg')).toBeNull();
  await expect(recogniserFor({ command: '/bin/false' })(note, 'audio/ogg')).rejects.toThrow();
});

it('listens by an endpoint that is posted the file, in plain text or JSON', async () => {
  const server = createServer((request, response) => {
    let body = '';
    request.on('data', (chunk: Buffer) => (body += chunk.toString()));
    request.on('end', () => {
      const json = request.url === '/json';
      response.setHeader('content-type', json ? 'application/json' : 'text/plain');
      response.end(json ? JSON.stringify({ text: body }) : body);
    });
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  for (const path of ['/plain', '/json']) {
    const recognise = recogniserFor({ url: `http://127.0.0.1:${port}${path}` });
    expect(await recognise(note, 'audio/ogg')).toEqual(heard);
  }
  server.close();
});
