import { rasterise } from '../../src/picture/rasterise.js';

/** A small picture that stands for a photo of something on the bench: its name on a workshop grey. PNG, a few kB. */
export function benchPhoto(of: string): Buffer {
  const tint = [...of].reduce((sum, letter) => (sum * 31 + letter.charCodeAt(0)) % 360, 7);
  return rasterise(`<svg xmlns="http://www.w3.org/2000/svg" width="320" height="240">
  <rect width="320" height="240" fill="hsl(${tint}, 12%, 62%)"/>
  <rect y="170" width="320" height="70" fill="hsl(28, 28%, 38%)"/>
  <ellipse cx="160" cy="168" rx="96" ry="22" fill="hsl(${tint}, 8%, 28%)"/>
  <circle cx="160" cy="112" r="58" fill="none" stroke="hsl(${tint}, 10%, 34%)" stroke-width="18"/>
  <text x="160" y="220" font-family="DejaVu Sans Condensed" font-size="20" text-anchor="middle" fill="#f2efe8">${escaped(of)}</text>
</svg>`);
}

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
