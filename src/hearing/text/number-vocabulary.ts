/** Number words of English, and the words that, following "one" or "half a", make it a number. */

export const ONES: ReadonlyMap<string, number> = new Map(
  (
    'zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen ' +
    'seventeen eighteen nineteen'
  )
    .split(' ')
    .map((word, value) => [word, value] as const),
);

export const TENS: ReadonlyMap<string, number> = new Map(
  'twenty thirty forty fifty sixty seventy eighty ninety'
    .split(' ')
    .map((word, index) => [word, (index + 2) * 10] as const)
    .concat([['fourty', 40]]),
);

export const RANKS: ReadonlyMap<string, number> = new Map([
  ...(
    'first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth thirteenth fourteenth ' +
    'fifteenth sixteenth seventeenth eighteenth nineteenth'
  )
    .split(' ')
    .map((word, index) => [word, index + 1] as const),
  ['twentieth', 20],
  ['thirtieth', 30],
]);

const UNITS = new Set(
  (
    'thou thous inch inches mm millimetre millimetres millimeter millimeters mil mill cm centimetre centimetres ' +
    'metre metres meter meters micron microns foot feet yard yards mile miles litre litres liter liters gallon ' +
    'gallons pint pints millilitre milliliter ml cc gram grams gramme kilo kilos kg kilogram ounce ounces oz pound ' +
    'pounds lb lbs stone turn turns degree degrees volt volts amp amps ohm ohms psi bar day days week weeks month months year years ' +
    'fortnight fortnights hour hours penny pence quid grand p in kilometer kilometre km tenth tenths tooth teeth cup'
  ).split(' '),
);

/** Whether the word is a unit (of length, time, money …) that a number stands before. */
export const followsAsUnit = (word: string): boolean => UNITS.has(word);
