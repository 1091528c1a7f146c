import type { Quantity } from '../../trade/terms.js';
import type { Token } from '../text/tokens.js';
import { wordAt } from '../text/word-at.js';

type Unit = { unit: string; quantity: Quantity | null };

const table: [unit: string, quantity: Quantity | null, names: string][] = [
  [
    'lbf.ft',
    'torque',
    'foot pounds|foot pound|ft lbs|ft lb|pounds feet|pounds foot|pound feet|pound foot|lbs ft|lb ft|lbf ft|ft lbf|foot lbs|foot lb|lbs feet|foot founds',
  ],
  ['lbf.in', 'torque', 'inch pounds|inch pound|in lbs|in lb|pounds inch|lb in|inch lbs'],
  ['N.m', 'torque', 'nm|n·m|n·m.|n.m|newton metres|newton metre|newton meters|newton meter|newtons'],
  [
    'psi',
    'pressure',
    'psi|pounds per square inch|pounds a square inch|pounds per inch|lbs per square inch|pound per square inch|lb per square inch|pounds pressure|pounds of pressure|pounds compression|pounds of compression|lb pressure|lbs pressure|lb compression|lbs compression',
  ],
  ['bar', 'pressure', 'bar|bars'],
  ['kPa', 'pressure', 'kpa|kilopascals'],
  ['V', 'voltage', 'v|volt|volts'],
  ['mV', 'voltage', 'mv|millivolts'],
  ['A', 'other', 'amp|amps|ampere|amperes'],
  ['mA', 'other', 'milliamps|ma'],
  ['ohm', 'resistance', 'ohm|ohms|ω'],
  ['kohm', 'resistance', 'kilohm|kilohms|kohm|kohms|kilo ohms|kilo ohm|kω'],
  ['Mohm', 'resistance', 'megohm|megohms'],
  [
    'degC',
    'temperature',
    '°c|degrees c|degrees celsius|degrees centigrade|deg c|celsius|centigrade|° celsius|degree c|degree celsius|degree centigrade',
  ],
  ['degF', 'temperature', '°f|degrees f|degrees fahrenheit|deg f|fahrenheit|° fahrenheit|degree f'],
  ['deg', 'other', '°|degrees|degree|deg'],
  [
    'thou',
    null,
    'thou|thous|thousandths|thousandth|thousandths of an inch|thousands of an inch|thousandth of an inch|thow|thau',
  ],
  ['tenths', null, 'tenths of a thou|tenth of a thou|tenths|tenth'],
  ['um', null, 'micron|microns|µm|um|micrometres|mics'],
  ['mm', null, 'mm|mms|mil|mils|mill|millimetre|millimetres|millimeter|millimeters|milimetres|milimeters'],
  ['cm', null, 'cm|cms|centimetre|centimetres|centimeter|centimeters'],
  ['m', null, 'm|metre|metres|meter|meters'],
  ['km', null, 'km|kms|kilometre|kilometres|kilometer|kilometers'],
  ['in', null, "in|ins|inch|inches|\"|''|”|″|′′"],
  ['ft', null, "ft|foot|feet|'"],
  ['yd', null, 'yd|yds|yard|yards'],
  ['mi', null, 'mi|mile|miles'],
  ['g', 'mass', 'g|gs|gram|grams|gramme|grammes'],
  ['mg', 'mass', 'mg|milligram|milligrams'],
  ['kg', 'mass', 'kg|kgs|kilo|kilos|kilogram|kilograms'],
  ['oz', 'mass', 'oz|ounce|ounces'],
  ['lb', 'mass', 'lb|lbs'],
  ['L', 'other', 'l|litre|litres|liter|liters'],
  ['mL', 'other', 'ml|mls|millilitre|millilitres|milliliter|milliliters'],
  ['hL', 'other', 'hl|hectolitre|hectolitres|hectoliter|hectoliters'],
  ['cc', 'other', 'cc|ccs'],
  ['pt', 'other', 'pint|pints'],
  ['gal', 'other', 'gal|gals|gallon|gallons'],
  ['cup', 'other', 'cup|cups'],
  ['teeth', 'count', 'teeth|tooth'],
  ['rpm', 'other', 'rpm|revs'],
  ['mph', 'other', 'mph|miles per hour|miles an hour'],
  ['SWG', 'other', 'gauge|swg'],
  ['turns', 'other', 'turns|turn'],
  ['%', 'other', '%|percent'],
  ['SG', 'other', 'sg|specific gravity'],
];

const units = new Map<string, Unit>(
  table.flatMap(([unit, quantity, names]) =>
    names.split('|').map((name) => [name.replace(/ /g, ''), { unit, quantity }] as const),
  ),
);

/** One-letter and everyday words that are a unit only when they are written close to the figure, or end the phrase. */
const SHY = /^(in|ins|m|l|g|v|gs|a|turn|foot|'|mil|mill|bar|cup|cups|gauge|revs|ma)$/;

const PREPOSITION_FOLLOWS = /^(the|a|an|it|there|here|bag|box|tin|this|that|my|with|on|for|good|all|and)$/;

/** The unit that starts at token `at`, the longest name first. */
export function unitAt(tokens: readonly Token[], at: number): (Unit & { length: number }) | null {
  for (let length = 5; length >= 1; length -= 1) {
    const run = tokens.slice(at, at + length);
    if (run.length < length) continue;
    const key = run.map((token) => token.word).join('');
    const unit = units.get(key);
    if (unit === undefined) continue;
    if (length === 1 && SHY.test(key) && run[0]?.before !== '' && !standsAsUnit(tokens, at, key)) continue;
    // "k.g." and the like keep their stop.
    return { ...unit, length };
  }
  return null;
}

function standsAsUnit(tokens: readonly Token[], at: number, key: string): boolean {
  const next = tokens[at + 1];
  // "ream a new one in": nobody says one inch so.
  if (
    key === 'in' &&
    /^(1|one)$/.test(wordAt(tokens, at - 1)) &&
    !/^(long|wide|deep|thick|dia|diameter)$/.test(next?.word ?? '')
  )
    return false;
  // Three places of decimals are thousandths of an inch.
  if (key === 'in' && /\.\d{3,}$/.test(tokens[at - 1]?.text ?? '')) return true;
  if (key === 'in' || key === 'ins')
    return next === undefined || next.kind === 'mark' || !PREPOSITION_FOLLOWS.test(next.word);
  if (/^(foot|bar|gauge|mil|mill|turn|cup|cups|revs|l|g|m|v|gs)$/.test(key)) return true;
  return false;
}
