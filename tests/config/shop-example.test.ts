import { expect, it } from 'vitest';
import { readShopFile } from '../../config/shop-file.js';
import { DEFAULT_POLICY } from '../../src/shop/policy.js';

it('ships an example of the shop’s file in which every policy stands with its default', async () => {
  const reading = await readShopFile(new URL('../../config/shop.example.yaml', import.meta.url).pathname);
  expect(reading).toEqual({ ok: true, policy: DEFAULT_POLICY });
});
