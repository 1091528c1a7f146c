import { describe, expect, it } from 'vitest';
import { tracesOf, withoutTraces } from '../../src/desk/traces.js';

// Invented people; numbers of a range kept for fiction (Ofcom, 01632 960000 to 960999).
const plater = { id: 's1', name: 'Pargeter Chroming', phone: '01632 960777' };
const owner = { id: 'o1', name: 'Mrs Dale' };

const without = (words: string, who = plater, others = [owner]): string =>
  withoutTraces(words, tracesOf(who, others));

describe('what gives somebody away', () => {
  it('is a firm’s own word by itself, and the number however it is spaced', () => {
    expect(without('rang Pargeter on 01632-960777, or PARGETER on 01632960777')).toBe(
      'rang a former contact on a number no longer kept, or a former contact on a number no longer kept',
    );
  });

  it('is a surname by itself, as a name is written', () => {
    const words = 'Dale rang; down in the dale they say Dalesman';
    expect(without(words, { ...owner, phone: '' }, [])).toBe(
      'a former contact rang; down in the dale they say Dalesman',
    );
  });

  it('is no everyday word of a firm’s name, no longer word, and no name that another has too', () => {
    const blue = { id: 's2', name: 'Blue Quarndon Spares', phone: '' };
    expect(without('Blue paint, Spares box, Quarndon', blue)).toBe(
      'Blue paint, Spares box, a former contact',
    );
    expect(without('Pargeters rang')).toBe('Pargeters rang');
    expect(without('Mr Dale rang', { ...owner, phone: '' }, [{ id: 'o2', name: 'Mr Dale' }])).toBe(
      'Mr Dale rang',
    );
    expect(without('part 101632 9607770')).toBe('part 101632 9607770');
  });
});
