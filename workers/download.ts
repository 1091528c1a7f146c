import type { Api } from 'grammy';
import { GrammyError } from 'grammy';
import { Readable } from 'node:stream';

/** The Bot API gives out files of up to 20 MB (Bot API documentation, getFile). */
export const FILE_LIMIT_BYTES = 20 * 1024 * 1024;

export type Download =
  { outcome: 'found'; content: Readable; mime?: string } | { outcome: 'too-big' | 'gone' };

/**
 * A file's content from the chat, by its handle. The address holds the bot's token: it goes nowhere else. Of another length than the
 * chat has the file down with, as a network's own web page in its place would be, it ends in an error.
 * @throws where the chat can't be reached or answers with an error that may pass
 */
export async function download(api: Api, token: string, apiRoot: string, handle: string): Promise<Download> {
  const found = await locate(api, handle);
  if (typeof found === 'string') return { outcome: found };
  const response = await fetch(`${apiRoot}/file/bot${token}/${found.path}`, {
    signal: AbortSignal.timeout(60_000),
  });
  if (response.status === 404) return { outcome: 'gone' };
  if (!response.ok || response.body === null)
    throw new Error(`the chat answered ${response.status} to a download`);
  const mime = response.headers.get('content-type');
  const body = Readable.fromWeb(response.body);
  const content = found.bytes === undefined ? body : Readable.from(ofLength(body, found.bytes));
  return { outcome: 'found', content, ...(mime === null ? {} : { mime }) };
}

async function* ofLength(content: Readable, bytes: number): AsyncGenerator<Uint8Array> {
  let size = 0;
  for await (const chunk of content as AsyncIterable<Uint8Array>) {
    size += chunk.byteLength;
    yield chunk;
  }
  if (size !== bytes) throw new Error(`the chat gave ${size} bytes of a file of ${bytes}`);
}

async function locate(
  api: Api,
  handle: string,
): Promise<{ path: string; bytes: number | undefined } | 'too-big' | 'gone'> {
  try {
    const { file_path: path, file_size: bytes } = await api.getFile(handle);
    return path === undefined ? 'gone' : { path, bytes };
  } catch (error) {
    if (!(error instanceof GrammyError) || error.error_code !== 400) throw error;
    return /too big/i.test(error.description) ? 'too-big' : 'gone';
  }
}

/** A file's bytes, or null where there are more of them than the limit: it is not read on then. */
export async function wholeOf(content: Readable, limitBytes = FILE_LIMIT_BYTES): Promise<Buffer | null> {
  const chunks: Buffer[] = [];
  let size = 0;
  for await (const chunk of content as AsyncIterable<Uint8Array>) {
    size += chunk.byteLength;
    if (size > limitBytes) return null;
    chunks.push(Buffer.from(chunk));
  }
  return Buffer.concat(chunks);
}
