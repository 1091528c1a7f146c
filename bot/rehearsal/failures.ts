/**
 * How a call is made to fail. `500`, `429` and `401`, as to a token that was revoked, are answered; `page` is answered with a web page
 * and 200, as by a network to be signed in to; `hang` never is; `drop` cuts the connection.
 */
export type FailureKind = '401' | '429' | '500' | 'page' | 'hang' | 'drop';

/** A failure on demand. */
export type Failure = {
  kind: FailureKind;
  /** Only this method (any letter case); `file` is the download of a file. Default: every method. */
  method?: string;
  /** How many calls fail. Default 1. */
  times?: number;
  /** Seconds in the answer to a 429. Default 1. */
  retryAfter?: number;
  /** The call takes effect first, and only its answer is lost or bad. Default false. */
  afterEffect?: boolean;
};

/** The failures that were asked for and have not all happened. */
export type FailurePlan = {
  /** Asks for failures; gives back how to call off those still to come. */
  add: (failure: Failure) => () => void;
  /** The failure for this call, used up by asking; null where it goes well. */
  next: (method: string) => Failure | null;
};

/** Makes an empty plan. */
export function createFailurePlan(): FailurePlan {
  let plan: { failure: Failure; left: number }[] = [];
  return {
    add: (failure) => {
      const entry = { failure, left: failure.times ?? 1 };
      plan.push(entry);
      return () => {
        plan = plan.filter((other) => other !== entry);
      };
    },
    next: (method) => {
      const entry = plan.find(
        ({ failure }) =>
          failure.method === undefined || failure.method.toLowerCase() === method.toLowerCase(),
      );
      if (entry === undefined) return null;
      entry.left -= 1;
      if (entry.left <= 0) plan = plan.filter((other) => other !== entry);
      return entry.failure;
    },
  };
}
