/**
 * The header of a GIF picture of this size, and nothing more; enough for whoever reads its width and height.
 * Source of the layout: GIF89a specification, logical screen descriptor.
 */
export function gif(width: number, height: number, padding = 0): Buffer {
  const header = Buffer.alloc(13 + padding);
  header.write('GIF89a', 'latin1');
  header.writeUInt16LE(width, 6);
  header.writeUInt16LE(height, 8);
  return header;
}
