const RIDE =
  /\b(?:road[- ]?test(?:ed|ing)?|test[- ]?(?:ride|rode|ridden|run)|rode|ridden|(?:out|up the road) (?:on|for a)|took (?:it|her|him) (?:out|up the road|round the block))\b/i;

/** Whether words tell of a ride, as against a test at the bench. */
export const tellsOfRide = (words: string): boolean => RIDE.test(words);

/** Whether words say in so many that a test was passed, as against praise of how it went. */
export const saysPassed = (words: string): boolean => /\bpass(?:ed|es)?\b/i.test(words);
