import type { Api } from 'grammy';
import { GrammyError } from 'grammy';
import { Readable } from 'node:stream';

/** The Bot API gives out files of up to 20 MB (Bot API documentation, getFile). */
export const FILE_LIMIT_BYTES = 20 * 1024 * 1024;

export type Download =
  { outcome: 'found'; content: Readable; mime?: string } | { outcome: 'too-big' | 'gone' };

/**
 * A file's content from the chat, by its handle. The address holds the bot's token: it goes nowhere else.
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
  const content = Readable.fromWeb(response.body);
  return { outcome: 'found', content, ...(mime === null ? {} : { mime }) };
}

async function locate(api: Api, handle: string): Promise<{ path: string } | 'too-big' | 'gone'> {
  try {
    const { file_path: path } = await api.getFile(handle);
    return path === undefined ? 'gone' : { path };
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
