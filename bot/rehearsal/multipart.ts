import type { IncomingMessage } from 'node:http';
import { Dicer } from '@fastify/busboy';
import { ApiFault, badRequest } from './faults.js';
import { LIMITS } from './limits.js';

/** A file that came with a multipart request. */
export type Upload = { name: string; mime: string; bytes: Uint8Array };

/** The fields and files of a multipart request. */
export type Form = { params: Record<string, unknown>; uploads: Map<string, Upload> };

/**
 * Reads multipart/form-data. The library splits the parts; their headers are read here, since grammY writes file
 * names without quotes, of which the library's own form reader drops the spaces.
 */
export function readMultipart(incoming: IncomingMessage, contentType: string): Promise<Form> {
  const boundary = /boundary=(?:"([^"]+)"|([^;\s]+))/i.exec(contentType);
  return new Promise((resolve, reject) => {
    const form: Form = { params: {}, uploads: new Map() };
    const parts = new Dicer({ boundary: boundary?.[1] ?? boundary?.[2] ?? '' });
    const broken = (): void => reject(badRequest("can't parse multipart form data"));
    parts.on('part', (part) => {
      let headers: PartHeaders = {};
      const chunks: Buffer[] = [];
      let length = 0;
      part.on('header', (read) => {
        headers = read as PartHeaders;
      });
      part.on('data', (chunk) => {
        length += chunk.length;
        if (length > LIMITS.uploadBytes) reject(new ApiFault(413, 'Request Entity Too Large'));
        else chunks.push(Buffer.from(chunk as Buffer));
      });
      part.on('error', broken);
      part.on('end', () => keep(form, headers, Buffer.concat(chunks)));
    });
    parts.on('finish', () => resolve(form));
    parts.on('error', broken);
    incoming.on('error', reject);
    incoming.pipe(parts);
  });
}

type PartHeaders = Record<string, string[] | undefined>;

function keep(form: Form, headers: PartHeaders, bytes: Buffer): void {
  const disposition = utf8(headers['content-disposition']?.[0] ?? '');
  const name = attribute(disposition, 'name');
  if (name === null) return;
  const fileName = attribute(disposition, 'filename');
  const mime = headers['content-type']?.[0] ?? 'application/octet-stream';
  if (fileName === null) form.params[name] = bytes.toString('utf8');
  else form.uploads.set(name, { name: fileName, mime, bytes });
}

/** An attribute of a header, quoted or bare: `name="photo"`, `filename=job sheet.pdf`. */
function attribute(header: string, name: string): string | null {
  const match = new RegExp(`(?:^|;)\\s*${name}=(?:"([^"]*)"|([^;]*))`, 'i').exec(header);
  return match === null ? null : (match[1] ?? match[2] ?? '').trim();
}

/** Header text arrives as one character a byte. */
const utf8 = (header: string): string => Buffer.from(header, 'latin1').toString('utf8');
