/** As much of pino's logger as the wiring needs. */
export type LogPort = {
  info(details: object, sentence: string): void;
  warn(details: object, sentence: string): void;
  error(details: object, sentence: string): void;
};
