import { z } from 'zod';
import { badRequest } from '../faults.js';
import { LIMITS } from '../limits.js';
import { read } from '../params.js';
import type { Handler } from './call.js';

/** getFile: the path of a file, for download; at most 20 MB. */
export const getFile: Handler<'getFile'> = (call) => {
  const params = read(z.object({ file_id: z.string() }), call.params);
  const file = call.bot.files.byId(params.file_id);
  if (file === null) throw badRequest('wrong file_id or the file is temporarily unavailable');
  if (file.size > LIMITS.downloadBytes) throw badRequest('file is too big');
  return {
    file_id: file.fileId,
    file_unique_id: file.uniqueId,
    file_size: file.size,
    file_path: file.path,
  };
};
