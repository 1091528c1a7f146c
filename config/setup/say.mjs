// @ts-check

/**
 * Prints one line of progress on standard error; standard output belongs to the command that is being set up.
 * @param {string} line
 */
export function say(line) {
  process.stderr.write(`${line}\n`);
}
