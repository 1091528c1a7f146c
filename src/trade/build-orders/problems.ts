import type { BuildOrder, BuildStep } from './schema.js';

const repeated = (values: readonly string[]): string[] => [
  ...new Set(values.filter((value, index) => values.indexOf(value) !== index)),
];

/**
 * The steps of one loop in the order in which each waits for the one named after it, the first again at the
 * end; null where no step waits for itself.
 */
export const loopIn = (steps: readonly Pick<BuildStep, 'id' | 'after'>[]): string[] | null => {
  const after = new Map(steps.map((step) => [step.id, step.after]));
  const cleared = new Set<string>();
  const walk = (id: string, path: readonly string[]): string[] | null => {
    const at = path.indexOf(id);
    if (at >= 0) return [...path.slice(at), id];
    if (cleared.has(id)) return null;
    for (const before of after.get(id) ?? []) {
      const loop = walk(before, [...path, id]);
      if (loop !== null) return loop;
    }
    cleared.add(id);
    return null;
  };
  for (const step of steps) {
    const loop = walk(step.id, []);
    if (loop !== null) return loop;
  }
  return null;
};

const linkProblems = (step: BuildStep, known: ReadonlySet<string>): string[] => [
  ...step.after
    .filter((id) => !known.has(id))
    .map((id) => `step '${step.id}': after: no step is called '${id}'`),
  ...repeated(step.after).map((id) => `step '${step.id}': after: '${id}' stands there twice`),
  ...step.waits.flatMap((wait) =>
    wait.after !== undefined && !step.after.includes(wait.after)
      ? [`step '${step.id}': waits: '${wait.after}' is not a step that it comes after`]
      : [],
  ),
  ...(step.waits.length > 0 && step.after.length === 0
    ? [`step '${step.id}': waits, but comes after no step`]
    : []),
];

/** A thing named by two steps is told apart by their places; with the same place (or none) it can't be. */
const tieProblems = (steps: readonly BuildStep[], field: 'parts' | 'groups'): string[] => {
  const owners = new Map<string, string>();
  const problems: string[] = [];
  for (const step of steps)
    for (const value of step[field]) {
      const key = `${value}@${step.place ?? ''}`;
      const owner = owners.get(key);
      if (owner === undefined) owners.set(key, step.id);
      else problems.push(`step '${step.id}': ${field}: '${value}' already belongs to '${owner}'`);
    }
  return problems;
};

/** What is wrong between the steps of an order: ids twice, unknown steps, loops, parts that two steps claim. */
export const problemsOf = (order: BuildOrder): string[] => {
  const ids = order.steps.map((step) => step.id);
  const known = new Set(ids);
  const loop = loopIn(order.steps);
  return [
    ...repeated(ids).map((id) => `step '${id}': the id stands there twice`),
    ...order.steps.flatMap((step) => linkProblems(step, known)),
    ...(loop === null ? [] : [`steps wait for each other in a loop: ${loop.join(' after ')}`]),
    ...tieProblems(order.steps, 'parts'),
    ...tieProblems(order.steps, 'groups'),
  ];
};
