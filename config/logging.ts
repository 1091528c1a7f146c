import { pino } from 'pino';
import type { Bindings, ChildLoggerOptions, DestinationStream, Logger, LoggerOptions } from 'pino';
import { withoutSecrets, withoutWords } from './redaction.js';

export type LoggingOptions = {
  readonly level: string;
  /** Which process this is, e.g. 'bot' or 'workers'. */
  readonly service: string;
  /** Cut out of every line wherever they occur: the bot's token. */
  readonly secrets?: readonly string[];
  /** Where the lines go. (Default: standard output) */
  readonly destination?: DestinationStream;
};

/**
 * A logger of JSON lines. People's words and data are left out wherever they turn up among the details, and secrets are cut
 * out of every line as it is written, error messages and stacks included.
 */
export function makeLogger({ level, service, secrets = [], destination }: LoggingOptions): Logger {
  const known = secrets.filter((secret) => secret !== '');
  const options: LoggerOptions = {
    level,
    base: { service, pid: process.pid },
    timestamp: pino.stdTimeFunctions.isoTime,
    // Errors have been described by then; pino's own serializer would describe the description.
    serializers: { err: (described: unknown) => described },
    formatters: {
      level: (label) => ({ level: label }),
      log: (details) => withoutWords(details),
    },
    hooks: { streamWrite: (line) => withoutSecrets(line, known) },
  };
  return guardChildren(destination === undefined ? pino(options) : pino(options, destination));
}

type Child = (this: Logger, bindings: Bindings, options?: ChildLoggerOptions) => Logger;

/** Pino hands the details of a child logger to no formatter. Children of children come from their parent. */
function guardChildren(logger: Logger): Logger {
  const plain = Reflect.get<object, string>(logger, 'child') as Child;
  const guarded: Child = function (bindings, options) {
    return plain.call(this, withoutWords(bindings), options);
  };
  return Object.defineProperty(logger, 'child', { value: guarded });
}
