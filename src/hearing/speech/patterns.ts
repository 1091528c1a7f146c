import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { z } from 'zod';

const rules = z.record(z.string(), z.array(z.string().min(1)).min(1));

/** The sentence patterns that ship with Benchhand, read once. */
export const patterns = rules.parse(parse(readFileSync(new URL('./patterns.yaml', import.meta.url), 'utf8')));
