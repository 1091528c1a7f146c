import { styleText } from 'node:util';
import type { Who } from '../scenario/cast.js';

/** How a run of text looks; on paper and in pipes all look the same. */
export type Palette = {
  day: (text: string) => string;
  scene: (text: string) => string;
  faint: (text: string) => string;
  bold: (text: string) => string;
  button: (text: string) => string;
  us: (text: string) => string;
  person: (who: Who | null, text: string) => string;
};

type Style = Parameters<typeof styleText>[0];

const PEOPLE: Record<Who, Style> = {
  hettie: ['yellow', 'bold'],
  joss: ['green', 'bold'],
  averill: ['magenta', 'bold'],
  plater: ['cyan', 'bold'],
  painter: ['cyan', 'bold'],
  dealer: ['cyan', 'bold'],
  stranger: ['red', 'bold'],
};

/** Colours for a terminal that shows them; plain text everywhere else. */
export function paletteFor(isColoured: boolean): Palette {
  const style = (how: Style) => (text: string) => (isColoured ? styleText(how, text) : text);
  return {
    day: style(['bold', 'underline']),
    scene: style(['yellow', 'italic']),
    faint: style('dim'),
    bold: style('bold'),
    button: style(['black', 'bgYellow']),
    us: style(['blue', 'bold']),
    person: (who, text) => style(who === null ? 'bold' : PEOPLE[who])(text),
  };
}

/** Whether a stream shows colours and nobody asked for none (https://no-color.org: NO_COLOR set and not empty). */
export function showsColour(stream: NodeJS.WriteStream, env: NodeJS.ProcessEnv): boolean {
  return stream.isTTY && (env['NO_COLOR'] ?? '') === '' && stream.hasColors();
}
