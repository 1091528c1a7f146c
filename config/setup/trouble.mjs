// @ts-check

/** A set-up failure that the person can mend: its message is all that is printed, without a stack. */
export class SetupTrouble extends Error {
  /** @param {string} message */
  constructor(message) {
    super(message);
    this.name = 'SetupTrouble';
  }
}
