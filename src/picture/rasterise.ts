import { createRequire } from 'node:module';
import { Resvg, type RenderedImage } from '@resvg/resvg-js';

const resolve = createRequire(import.meta.url).resolve;

/** The fonts shipped with the service. Without font files resvg leaves all text out and says nothing. */
const FONT_FILES = ['DejaVuSansCondensed.ttf', 'DejaVuSansCondensed-Bold.ttf'].map((name) =>
  resolve(`dejavu-fonts-ttf/ttf/${name}`),
);

/** A picture as PNG, of the size that the SVG gives. Throws on a text that is no SVG. */
export function rasterise(svg: string): Buffer {
  return render(svg).asPng();
}

/** A picture's pixels, four bytes each (red, green, blue, opacity). */
export function render(svg: string): RenderedImage {
  const font = { fontFiles: FONT_FILES, loadSystemFonts: false, defaultFontFamily: 'DejaVu Sans' };
  return new Resvg(svg, { font }).render();
}
