import RedisMock from 'ioredis-mock';
import { afterAll, describe } from 'vitest';
import { openRecord } from '../../src/record/index.js';
import { sidesConformance } from './sides.conformance.js';
import { anyShop, useBench } from './support.js';

const bench = useBench();

describe('on Redis', () => {
  sidesConformance(() => ({ record: bench.open(), redis: bench.redis }));
});

describe('on ioredis-mock', () => {
  const redis = new RedisMock();
  sidesConformance(() => ({ redis, record: openRecord({ redis, shop: anyShop(), filesDir: '/nowhere' }) }));
  afterAll(() => redis.disconnect());
});
