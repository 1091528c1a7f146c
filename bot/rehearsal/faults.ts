/** An answer of the Bot API that says no: `{ ok: false, error_code, description, parameters }`. */
export class ApiFault extends Error {
  constructor(
    readonly code: number,
    readonly description: string,
    readonly retryAfter?: number,
  ) {
    super(description);
  }
}

/** 400 with the wording of the public service. */
export const badRequest = (what: string): ApiFault => new ApiFault(400, `Bad Request: ${what}`);

/** 403: the bot may not write there. */
export const forbidden = (what: string): ApiFault => new ApiFault(403, `Forbidden: ${what}`);

/** 401: no bot has this token. */
export const unauthorized = (): ApiFault => new ApiFault(401, 'Unauthorized');

/** 404: no such method. */
export const methodNotFound = (): ApiFault => new ApiFault(404, 'Not Found: method not found');

/** 409: another poller has taken over. */
export const conflict = (): ApiFault =>
  new ApiFault(
    409,
    'Conflict: terminated by other getUpdates request; make sure that only one bot instance is running',
  );

/** 429: flood control, with the seconds to wait (ResponseParameters.retry_after). */
export const tooManyRequests = (retryAfter: number): ApiFault =>
  new ApiFault(429, `Too Many Requests: retry after ${retryAfter}`, retryAfter);

/** 500, as an overloaded service answers. */
export const internalError = (): ApiFault => new ApiFault(500, 'Internal Server Error');
