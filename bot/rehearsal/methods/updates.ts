import { z } from 'zod';
import { seconds } from '../bot-state.js';
import type { UpdateKind } from '../bench-message.js';
import { LIMITS } from '../limits.js';
import { flag, read, structured, whole } from '../params.js';
import type { Handler } from './call.js';

const schema = z.object({
  offset: whole.default(0),
  limit: whole.default(LIMITS.updatesPerPoll),
  timeout: whole.default(0),
  allowed_updates: structured(z.array(z.string())).optional(),
});

/** getUpdates: long polling. A `limit` out of 1-100 is brought into it. */
export const getUpdates: Handler<'getUpdates'> = (call) => {
  const params = read(schema, call.params);
  return call.bot.updates.poll({
    offset: params.offset,
    limit: Math.min(Math.max(params.limit, 1), LIMITS.updatesPerPoll),
    timeoutSeconds: params.timeout,
    allowed: params.allowed_updates === undefined ? null : (params.allowed_updates as UpdateKind[]),
    now: seconds(call.now),
    signal: call.signal,
  });
};

/** deleteWebhook: there never is one here; may drop what waits. */
export const deleteWebhook: Handler<'deleteWebhook'> = (call) => {
  const params = read(z.object({ drop_pending_updates: flag.default(false) }), call.params);
  if (params.drop_pending_updates) call.bot.updates.drop();
  return true;
};
