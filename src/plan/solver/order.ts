import type { Network, Side } from './network.js';

/** Writes into `list` all activities by rising key; each after those before it, whatever the keys say. */
export type Sort = (side: Side, key: Int32Array, list: Int32Array) => void;

/**
 * A counting sort of activities by whole-number keys. A key below that of an activity before it is raised (in
 * place), and equal keys keep the side's own order, so that the list respects every link.
 */
export function listSorter(network: Network): Sort {
  const { size } = network;
  let places = new Int32Array(2 * network.horizon + 2);
  return (side, key, list) => {
    const { order, before, beforeFrom } = side;
    let least = Infinity;
    let most = -Infinity;
    for (let k = 0; k < size; k += 1) {
      const activity = order[k] as number;
      let own = key[activity] as number;
      const last = beforeFrom[activity + 1] as number;
      for (let b = beforeFrom[activity] as number; b < last; b += 1) {
        const earlier = key[before[b] as number] as number;
        if (earlier > own) own = earlier;
      }
      key[activity] = own;
      if (own < least) least = own;
      if (own > most) most = own;
    }
    const span = most - least + 2;
    if (span > places.length) places = new Int32Array(2 * span);
    else places.fill(0, 0, span);
    for (let a = 0; a < size; a += 1) {
      const next = (key[a] as number) - least + 1;
      places[next] = (places[next] as number) + 1;
    }
    for (let time = 1; time < span; time += 1) {
      places[time] = (places[time] as number) + (places[time - 1] as number);
    }
    for (let k = 0; k < size; k += 1) {
      const activity = order[k] as number;
      const bucket = (key[activity] as number) - least;
      const place = places[bucket] as number;
      places[bucket] = place + 1;
      list[place] = activity;
    }
  };
}

/** When each activity ends, counted back from the schedule's end: its key for a pass the other way. */
export function mirrorStarts(network: Network, start: Int32Array, makespan: number, out: Int32Array): void {
  const { size, duration } = network;
  for (let a = 0; a < size; a += 1) out[a] = makespan - (start[a] as number) - (duration[a] as number);
}
