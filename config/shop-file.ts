import { readFile } from 'node:fs/promises';
import { parse, YAMLParseError } from 'yaml';
import { DEFAULT_POLICY, policySchema } from '../src/shop/policy.js';
import type { Policy } from '../src/shop/policy.js';

export type ShopFileReading =
  | { readonly ok: true; readonly policy: Policy }
  | { readonly ok: false; readonly problems: readonly string[] };

/**
 * Reads a shop's policies from its YAML file; what it doesn't set has the default. Without a file, all have. Each problem
 * is a line with the file, the setting's path in it, and what is wrong.
 */
export async function readShopFile(path: string | null): Promise<ShopFileReading> {
  if (path === null) return { ok: true, policy: DEFAULT_POLICY };
  try {
    return readShopText(path, await readFile(path, 'utf8'));
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    return { ok: false, problems: [`SHOP_FILE cannot be read: ${reason}`] };
  }
}

function readShopText(path: string, text: string): ShopFileReading {
  try {
    const result = policySchema.strict().safeParse(parse(text) ?? {});
    if (result.success) return { ok: true, policy: result.data };
    const problems = result.error.issues.map(
      (issue) => `SHOP_FILE ${path}: ${issue.path.join('.') || 'the file'}: ${issue.message}`,
    );
    return { ok: false, problems };
  } catch (error) {
    if (error instanceof YAMLParseError)
      return { ok: false, problems: [`SHOP_FILE ${path}: ${error.message}`] };
    throw error;
  }
}
