import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import type { Template } from '../build-orders/load.js';
import { listsSchema, type SettingUpCheck } from './schema.js';

export type { SettingUpCheck } from './schema.js';

const lists = listsSchema.parse(parse(readFileSync(new URL('./checks.yaml', import.meta.url), 'utf8')));

const wantedBy = (checks: readonly SettingUpCheck[], template: Template): SettingUpCheck[] =>
  checks.filter((check) => check.only === undefined || check.only.includes(template));

/** The setting-up checks between reassembly and road test, in the order in which they are usually done. */
export const checksOf = (template: Template): SettingUpCheck[] => wantedBy(lists.settingUp, template);

/** What to look for on the road test and on coming back from it. */
export const roadTestOf = (template: Template): SettingUpCheck[] => wantedBy(lists.roadTest, template);
