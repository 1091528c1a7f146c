import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { problemsOf } from './problems.js';
import { orderSchema, type BuildOrder } from './schema.js';

export type { BuildOrder, BuildStep, Stage } from './schema.js';

/** The templates that ship with Benchhand; a job keeps the one it was opened with, edited. */
export const TEMPLATES = ['single-separate-gearbox', 'unit-twin'] as const;
export type Template = (typeof TEMPLATES)[number];

/** A build order can't be used as it is; each problem names the step. */
export class BuildOrderError extends Error {
  override readonly name = 'BuildOrderError';
  constructor(
    readonly file: string,
    readonly problems: readonly string[],
  ) {
    super(`${file} has ${problems.length} problem(s):\n${problems.join('\n')}`);
  }
}

/**
 * The build order of one file's YAML text.
 * @throws BuildOrderError with all problems of the first kind found: YAML, shape, then links between steps
 */
export const readBuildOrder = (file: string, text: string): BuildOrder => {
  let raw: unknown;
  try {
    raw = parse(text);
  } catch (cause) {
    throw new BuildOrderError(file, [`is not YAML: ${String(cause)}`]);
  }
  const read = orderSchema.safeParse(raw);
  if (!read.success)
    throw new BuildOrderError(
      file,
      read.error.issues.map((issue) => `${issue.path.join('.')}: ${issue.message}`),
    );
  const problems = problemsOf(read.data);
  if (problems.length > 0) throw new BuildOrderError(file, problems);
  return read.data;
};

const load = (template: Template): BuildOrder => {
  const file = `${template}.yaml`;
  return readBuildOrder(file, readFileSync(new URL(`./${file}`, import.meta.url), 'utf8'));
};

/** The shipped build orders, read once. */
export const buildOrders: Readonly<Record<Template, BuildOrder>> = {
  'single-separate-gearbox': load('single-separate-gearbox'),
  'unit-twin': load('unit-twin'),
};

export const isTemplate = (name: string): name is Template => TEMPLATES.some((template) => template === name);
