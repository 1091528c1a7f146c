import { PAPER } from './colours.js';

/** Attributes of an element; what is undefined is left out. */
export type Attributes = Readonly<Record<string, string | number | undefined>>;

/** An element as text. `inside` is markup already. */
export function element(name: string, attributes: Attributes, inside = ''): string {
  const written = Object.entries(attributes)
    .flatMap(([key, value]) =>
      value === undefined ? [] : ` ${key}="${typeof value === 'number' ? round(value) : escapeText(value)}"`,
    )
    .join('');
  return inside === '' ? `<${name}${written}/>` : `<${name}${written}>${inside}</${name}>`;
}

export type TextStyle = {
  size: number;
  colour: string;
  bold?: boolean;
  anchor?: 'start' | 'middle' | 'end';
  /** Default true; false for text on a coloured ground. */
  edge?: boolean;
};

const EDGE: Attributes = {
  stroke: PAPER,
  'stroke-width': 8,
  'stroke-linejoin': 'round',
  'paint-order': 'stroke',
};

/** A line of text with its baseline at `y`; sizes in pixels. An edge of paper keeps rules from running through it. */
export function textLine(x: number, y: number, text: string, style: TextStyle): string {
  return element(
    'text',
    {
      x,
      y,
      'font-size': style.size,
      fill: style.colour,
      'font-weight': style.bold ? 'bold' : undefined,
      'text-anchor': style.anchor,
      ...(style.edge === false ? {} : EDGE),
    },
    escapeText(text) || ' ',
  );
}

/** A whole picture of the given size in pixels. */
export function picture(width: number, height: number, inside: string): string {
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      width,
      height: Math.ceil(height),
      viewBox: `0 0 ${width} ${Math.ceil(height)}`,
      'font-family': 'DejaVu Sans',
      'font-stretch': 'condensed',
    },
    inside,
  );
}

/** Text that is safe within markup: people's words may hold anything, also characters that XML forbids. */
export function escapeText(text: string): string {
  return text
    .replace(/[\p{Cc}\p{Cs}\uFFFE\uFFFF]/gu, ' ')
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/"/g, '&quot;');
}

/** About how wide a text is, in pixels: widths of DejaVu Sans Condensed by rough classes, rather too wide than too narrow. */
export function widthOf(text: string, size: number, bold = false): number {
  let ems = 0;
  for (const sign of text) ems += emsOf(sign);
  return ems * size * (bold ? 1.12 : 1);
}

/** A text cut to a width, with an ellipsis where something was lost. */
export function fitted(text: string, size: number, width: number, bold = false): string {
  if (widthOf(text, size, bold) <= width) return text;
  const signs = [...text];
  while (signs.length > 0 && widthOf(`${signs.join('')}…`, size, bold) > width) signs.pop();
  return `${signs.join('').trimEnd()}…`;
}

export function round(value: number): number {
  return Math.round(value * 100) / 100;
}

function emsOf(sign: string): number {
  if (/[ijl.,:;'|!’ ]/.test(sign)) return 0.3;
  if (/[frtIJ()[\]-]/.test(sign)) return 0.4;
  if (/[mwMW@%…—]/.test(sign)) return 0.9;
  if (/[A-Z]/.test(sign)) return 0.66;
  return (sign.codePointAt(0) ?? 0) < 0x2e80 ? 0.57 : 1.05;
}
