import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Floor } from './floor.js';
import { expectText, furnish, openFloor } from './floor.js';

let floor: Floor;
beforeAll(async () => {
  floor = await openFloor();
  await furnish(floor);
});
afterAll(() => floor.stop());

describe('a telephone number', () => {
  const phoneOf = async (name: string) =>
    (await floor.record.people.all()).find((each) => each.name === name)?.phone;

  it('is kept for whoever it is said of', async () => {
    await floor.mechanic('owner Mr Ringwell');
    expectText(await floor.mechanic("Mr Ringwell's number is 01632 960444"), /Mr Ringwell, 01632 960444/);
    expect(await phoneOf('Mr Ringwell')).toBe('01632 960444');
    await floor.mechanic('ring Ringwell on 01632 960445');
    expect(await phoneOf('Mr Ringwell')).toBe('01632 960445');
  });

  it('is the owner’s of the machine on the bench, where no name is said', async () => {
    await floor.mechanic('owner’s number is 01632 960446');
    expect(await phoneOf('Mrs Quillfeather')).toBe('01632 960446');
  });

  it('is taken with the owner of a new job', async () => {
    expectText(
      await floor.mechanic('new job: Wren 250 single, frame no 04455 12345, owner Mr Ringwell, 01632 960449'),
      /Owner: Mr Ringwell, 01632 960449\./,
    );
    expect(await phoneOf('Mr Ringwell')).toBe('01632 960449');
    await floor.mechanic(
      'new job: Wryneck 250 single, owner Mr Ringwell, frame no 04455 12345, engine number 0123456789',
    );
    expect(await phoneOf('Mr Ringwell')).toBe('01632 960449');
    await floor.mechanic('working on the Larkspur');
  });

  it('is not what is stamped on a frame', async () => {
    await floor.mechanic('frame number is 01632 960447');
    const people = await floor.record.people.all();
    expect(people.map(({ phone }) => phone)).not.toContain('01632 960447');
    expectText(await floor.mechanic('Mr Nobodyhere’s number is 01632 960448'), /don’t know anyone/);
  });
});

describe('a name in the chat', () => {
  let other: Floor;
  beforeAll(async () => {
    other = await openFloor();
  });
  afterAll(() => other.stop());

  it('is one that somebody goes by from then on', async () => {
    await other.mechanic('supplier Wispwell Enamels, paint');
    await other.join('Wispwell Enamels', 604, 'Ottoline Wisp');
    await other.mechanic('owner Mr Farthingdown');
    await other.join('Mr Farthingdown', 605, 'Peregrine F');
    await other.mechanic('new job: Saltmarsh 250 single, owner Mr Farthingdown, already stripped');
    await other.mechanic('petrol tank dented, send it for paint, 140');
    expectText(await other.mechanic('sent the tank to Ottoline for paint'), /gone to Wispwell Enamels/);
    expectText(await other.mechanic('ask Peregrine'), /Mr Farthingdown/);
  });

  it('is not gone by where it means something else, or somebody else', async () => {
    await other.mechanic('supplier Pellbrook Rewinds, rewinding');
    await other.join('Pellbrook Rewinds', 606, 'Rusty');
    await other.mechanic('supplier Addlestone Castings');
    await other.join('Addlestone Castings', 607, 'Mr Farthingdown');
    const people = await other.record.people.all();
    const called = people.filter(({ name }) => /Pellbrook|Addlestone/.test(name));
    expect(called.map(({ also }) => also ?? [])).toEqual([[], []]);
  });
});
