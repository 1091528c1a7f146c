import { z } from 'zod';
import { badRequest } from './faults.js';

/** A number or a text of digits: form fields are always text. */
export const whole = z.union([
  z.number().int(),
  z
    .string()
    .regex(/^-?\d+$/)
    .transform(Number),
]);

/** True and false in JSON or as a form's text. */
export const flag = z.union([z.boolean(), z.enum(['true', 'false']).transform((text) => text === 'true')]);

/** Text; forms and JSON alike. A number is read as its digits, as the public service does. */
export const words = z.union([z.string(), z.number().transform(String)]);

/** Who to write to: a number, or a text (a number in digits, or `@name`, which the rehearsal does not know). */
export const chatId = z.union([z.number().int(), z.string().min(1)]);

/** An object or list: as it is, or as JSON text in a form. */
export const structured = <T extends z.ZodType>(schema: T) =>
  z.preprocess((value, context) => {
    if (typeof value !== 'string') return value;
    try {
      return JSON.parse(value) as unknown;
    } catch {
      context.addIssue({ code: 'custom', message: 'is not JSON' });
      return z.NEVER;
    }
  }, schema);

/** Reads parameters; throws the Bot API's 400 naming the first that is wrong. */
export function read<T extends z.ZodType>(schema: T, params: Record<string, unknown>): z.output<T> {
  const result = schema.safeParse(params);
  if (result.success) return result.data;
  const issue = result.error.issues[0];
  const field = issue?.path.join('.') ?? 'parameter';
  throw badRequest(field === 'chat_id' ? 'chat_id is empty' : `${field}: ${issue?.message ?? 'is wrong'}`);
}
