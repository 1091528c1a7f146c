import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readShopFile } from '../../config/shop-file.js';
import { DEFAULT_POLICY } from '../../src/shop/policy.js';

describe("the shop's file", () => {
  let dir: string;
  beforeAll(async () => {
    dir = await mkdtemp(join(tmpdir(), 'benchhand-shop-'));
  });
  afterAll(() => rm(dir, { recursive: true, force: true }));

  async function read(text: string): ReturnType<typeof readShopFile> {
    const path = join(dir, 'shop.yaml');
    await writeFile(path, text);
    return readShopFile(path);
  }

  it('is not needed', async () => {
    expect(await readShopFile(null)).toEqual({ ok: true, policy: DEFAULT_POLICY });
    expect(await read('# nothing set yet\n')).toEqual({ ok: true, policy: DEFAULT_POLICY });
  });

  it('changes what it sets, and nothing else', async () => {
    const reading = await read('name: The Tin Shed\nsupplier:\n  chaseAfter: 2\n');
    expect(reading).toEqual({
      ok: true,
      policy: {
        ...DEFAULT_POLICY,
        name: 'The Tin Shed',
        supplier: { ...DEFAULT_POLICY.supplier, chaseAfter: 2 },
      },
    });
  });

  it.each([
    ['a wrong value', 'supplier:\n  chaseAfter: soon\n', 'supplier.chaseAfter'],
    ['an unknown setting', 'chaseEverybody: true\n', 'chaseEverybody'],
    ['something else than settings', '- one\n- two\n', 'the file'],
    ['no YAML', 'name: [unclosed\n', 'line 2'],
  ])('is refused with its name and the place: %s', async (_what, text, place) => {
    const reading = await read(text);
    expect(reading).toMatchObject({ ok: false, problems: [expect.stringContaining('SHOP_FILE')] });
    expect(JSON.stringify(reading)).toContain('shop.yaml');
    expect(JSON.stringify(reading)).toContain(place);
  });

  it('is refused where it cannot be read', async () => {
    expect(await readShopFile(join(dir, 'nowhere.yaml'))).toMatchObject({
      ok: false,
      problems: [expect.stringMatching(/^SHOP_FILE cannot be read: .*nowhere\.yaml/)],
    });
  });
});
