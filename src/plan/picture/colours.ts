/**
 * The pictures' colours, chosen by search so that any two differ plainly to every eye: by at least 20 in CIEDE2000,
 * also as seen with protanopia, deuteranopia and tritanopia (Machado, Oliveira & Fernandes 2009), and stand out from the
 * paper by 3:1 (WCAG 2.2, 1.4.11). Nothing is told by colour alone: what is behind is filled, what is ahead is
 * tinted, what is unsure is hatched.
 */
export const COLOURS = {
  done: '#6F7173',
  away: '#C37F14',
  bench: '#003A78',
  answer: '#2E95E5',
  late: '#621B18',
} as const;

export const PAPER = '#FFFFFF';
export const INK = '#1B1D1F';
/** For lesser text; 7:1 on the paper. */
export const FAINT_INK = '#55595C';
export const RULE = '#C9CDD0';
export const CLOSED = '#ECEEEF';
