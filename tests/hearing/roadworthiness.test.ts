import { expect, test } from 'vitest';
import { judgeWording, type JudgedWording } from '../support/hearing-judged.js';
import { reference } from '../support/reference.js';

// DVSA reason-for-rejection tables, motorcycles; Crown copyright, Open Government Licence v3.0. Judged by hand, once.
const { wordings } = reference<{ wordings: JudgedWording[] }>('roadworthiness-judged.json');
const verdicts = wordings.map(judgeWording);

test('150 statutory defect wordings: the part in 95 %', () => {
  expect(wordings).toHaveLength(150);
  expect(verdicts.filter((verdict) => verdict.part).length / wordings.length).toBeGreaterThanOrEqual(0.95);
});

test('150 statutory defect wordings: the condition in 85 %', () => {
  expect(verdicts.filter((verdict) => verdict.condition).length / wordings.length).toBeGreaterThanOrEqual(
    0.85,
  );
});
