import type { IncomingMessage } from 'node:http';
import { badRequest } from './faults.js';
import { readMultipart, type Upload } from './multipart.js';

/** The parameters of a call in whichever of the documented ways they came: query, form, JSON or multipart. */
export type Request = { params: Record<string, unknown>; uploads: Map<string, Upload> };

/** Reads a request. Throws the Bot API's 400 where the body cannot be read, 413 where it is too large. */
export async function readRequest(incoming: IncomingMessage, url: URL): Promise<Request> {
  const query = Object.fromEntries(url.searchParams);
  const type = incoming.headers['content-type'] ?? '';
  if (type.startsWith('multipart/form-data')) {
    const form = await readMultipart(incoming, type);
    return { params: { ...query, ...form.params }, uploads: form.uploads };
  }
  const body = (await readAll(incoming)).toString('utf8');
  return { params: { ...query, ...readFlat(body, type) }, uploads: new Map() };
}

function readFlat(body: string, type: string): Record<string, unknown> {
  if (body === '') return {};
  if (!type.startsWith('application/json')) return Object.fromEntries(new URLSearchParams(body));
  try {
    const value: unknown = JSON.parse(body);
    if (typeof value === 'object' && value !== null) return { ...value };
  } catch (error) {
    if (!(error instanceof SyntaxError)) throw error;
  }
  throw badRequest("can't parse JSON object");
}

async function readAll(incoming: IncomingMessage): Promise<Buffer> {
  const chunks: Buffer[] = [];
  for await (const chunk of incoming) chunks.push(Buffer.from(chunk as Uint8Array));
  return Buffer.concat(chunks);
}
