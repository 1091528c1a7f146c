import { z } from 'zod';

/** The schemes of web addresses and of Redis's (`unix://` is a socket file). */
export const WEB_SCHEMES = ['http', 'https'] as const;
export const REDIS_SCHEMES = ['redis', 'rediss', 'unix'] as const;

const MISSING = 'is not set';

/** A bot's token: its number, a colon and a secret. */
export const tokenSetting = z
  .string({ error: MISSING })
  .regex(/^\d+:[A-Za-z0-9_-]{3,}$/, 'is not a token: a number, a colon and a secret');

export const pathSetting = z.string().regex(/^[^\0]*$/, 'is not a path');

/** As the record wants it: part of every key's name. */
export const keySetting = z
  .string()
  .regex(/^[A-Za-z0-9_-]{1,64}$/, "is not 1 to 64 letters, digits, '-' or '_'");

/** An address with one of the schemes; a slash at its end is dropped. */
export const addressSetting = (schemes: readonly string[]): z.ZodType<string, string> => {
  const wanted = schemes.map((scheme) => `${scheme}://`).join(' or ');
  return z
    .string()
    .refine((text) => isAddress(text, schemes), `is not an address that begins with ${wanted}`)
    .transform((text) => text.replace(/\/+$/, ''));
};

/** Chat ids of people, separated by commas. Groups have negative ids, and are no mechanics. */
export const chatIdsSetting = z.string().transform((text, context) => {
  const ids = text.split(',').map((id) => id.trim());
  if (ids.every((id) => /^[1-9]\d{0,15}$/.test(id) && Number.isSafeInteger(Number(id)))) {
    return [...new Set(ids.map(Number))];
  }
  context.addIssue({
    code: 'custom',
    message: 'is not a list of chat ids, whole numbers above 0 with commas between',
  });
  return z.NEVER;
});

export const switchSetting = z
  .string()
  .toLowerCase()
  .pipe(z.enum(['true', 'false', '1', '0', 'yes', 'no'], { error: 'is neither true nor false' }))
  .transform((text) => ['true', '1', 'yes'].includes(text));

export const countSetting = (least: number, most: number): z.ZodType<number, string> =>
  z
    .string()
    .refine(
      (text) => /^\d{1,9}$/.test(text) && Number(text) >= least && Number(text) <= most,
      `is not a whole number from ${least} to ${most}`,
    )
    .transform(Number);

function isAddress(text: string, schemes: readonly string[]): boolean {
  if (!URL.canParse(text)) return false;
  const { protocol, hostname, pathname } = new URL(text);
  const scheme = protocol.slice(0, -1);
  if (!schemes.includes(scheme) || !text.startsWith(`${scheme}://`)) return false;
  return scheme === 'unix' ? hostname === '' && pathname.length > 1 : hostname !== '';
}
