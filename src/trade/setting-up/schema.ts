import { z } from 'zod';
import { TEMPLATES } from '../build-orders/load.js';

export const checkSchema = z.strictObject({
  id: z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'must be lower case words joined by hyphens'),
  name: z.string().min(1).max(60),
  watch: z.string().min(1).max(200).optional(),
  /** The id of the caution to give with it. */
  caution: z.string().min(1).optional(),
  /** The build orders whose machines want it; left out, all. */
  only: z.array(z.enum(TEMPLATES)).min(1).optional(),
});

export const listsSchema = z.strictObject({
  /** Between the last step of the build and the road test. */
  settingUp: z.array(checkSchema).min(1),
  /** On the road and on coming back. */
  roadTest: z.array(checkSchema).min(1),
});

export type SettingUpCheck = z.infer<typeof checkSchema>;
