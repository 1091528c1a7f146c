import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fitLogistic, type Case } from '../../support/ridge-logistic.js';

const cases = (count: number, features: [number, number][], happened: boolean): Case[] =>
  new Array<Case>(count).fill({ features: new Map(features), happened });

describe('the logistic regression that the weights are made by', () => {
  // Of a two-by-two table the fitted slope is the logarithm of the odds ratio, ln(ad/bc), and the constant that of the odds
  // without the sign (Hosmer and Lemeshow, Applied Logistic Regression, on a dichotomous covariate; from memory).
  test('gives the log odds ratio of a table of two by two', () => {
    const [a, b, c, d] = [21, 22, 6, 51];
    const table = [
      ...cases(
        a,
        [
          [0, 1],
          [1, 1],
        ],
        true,
      ),
      ...cases(
        c,
        [
          [0, 1],
          [1, 1],
        ],
        false,
      ),
      ...cases(b, [[0, 1]], true),
      ...cases(d, [[0, 1]], false),
    ];
    const [constant, slope] = fitLogistic(table, [1e-9, 1e-9], 50);
    expect(slope).toBeCloseTo(Math.log((a * d) / (b * c)), 6);
    expect(constant).toBeCloseTo(Math.log(b / d), 6);
  });

  test('stands where the slope of the penalised likelihood is nought', () => {
    const one = fc.record({
      x: fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 3, maxLength: 3 }),
      happened: fc.boolean(),
    });
    fc.assert(
      fc.property(
        fc.array(one, { minLength: 4, maxLength: 30 }),
        fc.double({ min: 0.1, max: 5, noNaN: true }),
        (rows, penalty) => {
          const given = rows.map(({ x, happened }): Case => ({ features: new Map(x.entries()), happened }));
          const weights = fitLogistic(given, [penalty, penalty, penalty], 50);
          [0, 1, 2].forEach((at) => {
            const slope = rows.reduce(
              (sum, { x, happened }) => {
                const p =
                  1 / (1 + Math.exp(-x.reduce((total, value, k) => total + value * (weights[k] ?? 0), 0)));
                return sum + ((happened ? 1 : 0) - p) * (x[at] ?? 0);
              },
              -penalty * (weights[at] ?? 0),
            );
            expect(Math.abs(slope)).toBeLessThan(1e-5);
          });
        },
      ),
      { numRuns: 50 },
    );
  });
});
