// @ts-check

/** As in package.json's `engines`. */
const OLDEST_NODE = 20;

/**
 * Null where this Node is new enough, else the line that says what to install. Kept free of newer syntax and imports,
 * so that an old Node gets as far as saying so.
 * @param {string} version as in process.versions.node
 * @returns {string | null}
 */
export function nodeTrouble(version) {
  const major = Number(version.split('.')[0]);
  if (major >= OLDEST_NODE) return null;
  return `Benchhand needs Node ${OLDEST_NODE} or newer; this is ${version}. Please install it from your distribution or nodejs.org.`;
}
