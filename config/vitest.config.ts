import { defineConfig } from 'vitest/config';
import type { TestSpecification } from 'vitest/node';
import { BaseSequencer } from 'vitest/node';

/** What takes minutes begins first: started last, it would be waited for with the other worker idle. */
class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    const isLong = ({ moduleId }: TestSpecification): boolean => /\/tests\/holds\/kills/.test(moduleId);
    return [...sorted.filter(isLong), ...sorted.filter((file) => !isLong(file))];
  }
}

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['tests/**/*.test.ts'],
    exclude: ['dist/**', 'node_modules/**'],
    testTimeout: 30_000,
    hookTimeout: 60_000,
    pool: 'forks',
    maxWorkers: 2,
    maxConcurrency: 2,
    sequence: { sequencer: LongestFirst },
  },
});
