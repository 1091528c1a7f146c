import { describe, expect, it } from 'vitest';
import { mentionsIn, tracesOf, withoutTraces } from '../../src/desk/traces.js';

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

  it.each([
    '+44 1632 960777',
    '+441632960777',
    '0044 1632 960 777',
    '+44 (0)1632 960777',
    '(01632) 960777',
    '01632.960.777',
    '01632–960–777',
    '44 1632 960777',
    '1632 960777',
  ])('is the number written as %s', (number) => {
    expect(without(`ring ${number} first`)).toBe('ring a number no longer kept first');
    expect(without('ring 01632 960777 first', { ...plater, phone: number })).toBe(
      'ring a number no longer kept first',
    );
  });

  it('is no other number', () => {
    for (const words of ['01632 960778', '+44 1632 9607771', '21632 960777', 'part 960777'])
      expect(without(words)).toBe(words);
  });

  it('is a name in any case, and half of one that is no word besides', () => {
    expect(without('pargeter chroming rang, pargeter says')).toBe(
      'a former contact rang, a former contact says',
    );
    const irish = { id: 's3', name: 'Mr O’Quarndon', phone: '' };
    expect(without("o'quarndon rang", irish)).toBe('a former contact rang');
  });

  it('is no name, nor half of one, that another is called by besides their own', () => {
    const other = { id: 's4', name: 'Zennor Paint', also: ['Young Pargeter', 'Pargeter’s lad'] };
    expect(without('Pargeter rang', plater, [other])).toBe('Pargeter rang');
    const twin = { id: 'o2', name: 'Mrs Quill', also: ['Mrs Dale'] };
    expect(without('Mrs Dale rang', { ...owner, phone: '' }, [twin])).toBe('Mrs Dale rang');
  });
});

describe('what mentions somebody in passing', () => {
  const mentions = (words: string, name: string): boolean =>
    mentionsIn(tracesOf({ id: 'x', name, phone: '01632 960777' }, []))(words);

  it('is half their name in any case, as a whole word, save an everyday word', () => {
    expect(mentions('mrs dale rang', 'Mrs Dale')).toBe(true);
    expect(mentions('ask dale', 'Mrs Dale')).toBe(true);
    expect(mentions('the dalesman', 'Mrs Dale')).toBe(false);
    expect(mentions('rose to it', 'Mrs Rose')).toBe(false);
    expect(mentions('Rose rang', 'Mrs Rose')).toBe(true);
  });

  it('is their number, however it is written', () => {
    expect(mentions('on +44 1632 960 777', 'Mrs Dale')).toBe(true);
    expect(mentions('on +44 1632 960 778', 'Mrs Dale')).toBe(false);
  });
});
