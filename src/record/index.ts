export { openRecord } from './record.js';
export type { RecordOptions } from './record.js';
export { queuePrefix } from './keys.js';
export type * from './types.js';
