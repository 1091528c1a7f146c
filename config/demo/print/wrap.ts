/** A line of a wrapped text, with the offset in the text at which it begins. */
export type WrappedLine = { text: string; from: number };

/** Breaks a text into lines of at most `width` characters, between words where there is a space to break at. */
export function wrap(text: string, width: number): WrappedLine[] {
  const lines: WrappedLine[] = [];
  let from = 0;
  for (const paragraph of text.split('\n')) {
    lines.push(...wrapParagraph(paragraph, width).map((line) => ({ ...line, from: from + line.from })));
    from += paragraph.length + 1;
  }
  return lines;
}

function wrapParagraph(paragraph: string, width: number): WrappedLine[] {
  const lines: WrappedLine[] = [];
  let from = 0;
  while (paragraph.length - from > width) {
    const space = paragraph.lastIndexOf(' ', from + width);
    const at = space > from ? space : from + width;
    lines.push({ text: paragraph.slice(from, at), from });
    from = space > from ? at + 1 : at;
  }
  return [...lines, { text: paragraph.slice(from), from }];
}
