const RIDE =
  /\b(?:road[- ]?test(?:ed|ing)?|test[- ]?(?:ride|rode|ridden|run)|rode|ridden|(?:out|up the road) (?:on|for a)|took (?:it|her|him) (?:out|up the road|round the block))\b/i;

/** Whether words tell of a ride, as against a test at the bench. */
export const tellsOfRide = (words: string): boolean => RIDE.test(words);
