import { describe, expect, it } from 'vitest';
import { TEMPLATES } from '../../src/trade/build-orders/load.js';
import { checksOf, roadTestOf } from '../../src/trade/setting-up/load.js';

describe.each(TEMPLATES)('setting up a %s', (template) => {
  const checks = checksOf(template);
  const ids = checks.map((check) => check.id);

  // The list is common practice, no source.
  it.each([
    /ignition timing/i,
    /tappet/i,
    /chain tension/i,
    /clutch free play/i,
    /brakes adjusted/i,
    /cables free/i,
    /wheels in line/i,
    /tyre pressures/i,
    /oil levels/i,
    /lights/i,
    /horn/i,
    /charging/i,
    /no leaks/i,
    /oil returning/i,
    /steering head/i,
    /fastening/i,
  ])('has a check of %s', (name) => expect(checks.some((check) => name.test(check.name))).toBe(true));

  it('names each check once, and none of the road test twice', () => {
    const all = [...ids, ...roadTestOf(template).map((check) => check.id)];
    expect(all).toEqual([...new Set(all)]);
  });

  it.each([
    ['fuel-leaks', 'first-start'],
    ['oil-levels', 'first-start'],
    ['tappet-clearance', 'first-start'],
    ['first-start', 'charging-rate'],
    ['torque-check', 'papers'],
  ])('%s comes before %s', (first, second) => {
    expect(ids).toContain(first);
    expect(ids.indexOf(first)).toBeLessThan(ids.indexOf(second));
  });

  it('tries the brakes first on the road', () => expect(roadTestOf(template)[0]?.name).toMatch(/brakes/i));
});

describe('checks for one kind of machine', () => {
  it('are asked of that kind alone', () => {
    const [single, twin] = [checksOf('single-separate-gearbox'), checksOf('unit-twin')];
    expect(twin.map((check) => check.id)).toContain('carburettors-balanced');
    expect(single.map((check) => check.id)).not.toContain('carburettors-balanced');
    expect(single.filter((check) => /ignition timing/i.test(check.name))).toHaveLength(1);
    expect(twin.filter((check) => /ignition timing/i.test(check.name))).toHaveLength(1);
  });
});
