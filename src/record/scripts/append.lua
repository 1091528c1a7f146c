--[[
Appends a command's outcome to one stream, all of it or nothing.

The command's id is looked up first, so that an honest retry is told 'seen' and never 'conflict'; then the expected
version is compared; then everything is written. A script that fails keeps what it has written, so every argument and the
type of every key is checked before the first write. (Redis refuses a script for want of memory at its start, not midway.)

KEYS
  1 events      stream; the entry of version n has the id n-0
  2 texts       hash, text id -> words as said
  3 command     string: the version after the command, a space, microseconds (server time) at which it came
  4 streams     set of the streams that exist
  5 outbox      stream of effects to be handed on
  6 effect ids  sorted set, effect id -> microseconds (server time) at which it was added
  7 due         sorted set, stream -> ms at which it is next due
  8 update      string: how the update behind the command was understood

ARGV
  1 the stream's id
  2 expected version
  3 milliseconds that the command's id and the effects' ids are kept
  4 due: 'leave', 'none', or milliseconds
  5 how the update was understood (JSON), kept unless something of it is; empty: nothing to keep
  6 milliseconds that it is kept
  7 number of events    followed by that many event bodies (JSON)
  then number of texts  followed by that many pairs: text id, words
  then number of effects followed by that many pairs: effect id, effect (JSON)

Output  { code, version }
   1  appended; the version is the new one
   2  seen: the command was appended before; the version is the one after it
   3  conflict: the stream has moved on; the version is the current one
  -1  malformed arguments; nothing was written
]]
local stream, expected, keep, due = ARGV[1], tonumber(ARGV[2]), tonumber(ARGV[3]), ARGV[4]
local begun, keepBegun = ARGV[5], tonumber(ARGV[6])
local at = 7

local function count()
  local n = tonumber(ARGV[at] or '')
  at = at + 1
  return n
end

if #KEYS ~= 8 or not expected or not keep or keep <= 0 or not keepBegun or keepBegun <= 0 then return { -1, 0 } end
if due ~= 'leave' and due ~= 'none' and not tonumber(due) then return { -1, 0 } end

local events = count()
local firstEvent = at
at = at + (events or 0)
local texts = count()
local firstText = at
at = at + 2 * (texts or 0)
local effects = count()
local firstEffect = at
at = at + 2 * (effects or 0)
if not events or not texts or not effects or at ~= #ARGV + 1 then return { -1, 0 } end

local seen = redis.call('GET', KEYS[3])
if seen then return { 2, tonumber(string.match(seen, '^%d+')) } end

local version = 0
local last = redis.call('XREVRANGE', KEYS[1], '+', '-', 'COUNT', 1)[1]
if last then version = tonumber(string.match(last[1], '^(%d+)%-')) end
if version ~= expected then return { 3, version } end

-- Each of these raises WRONGTYPE, if it must be raised, before anything is written; of keys that will be written.
if texts > 0 then redis.call('HLEN', KEYS[2]) end
if events > 0 and expected == 0 then redis.call('SCARD', KEYS[4]) end
if effects > 0 then
  redis.call('XLEN', KEYS[5])
  redis.call('ZCARD', KEYS[6])
end
if due ~= 'leave' then redis.call('ZCARD', KEYS[7]) end

-- Microseconds since 1970 are exact in a double but not in Lua's default number format.
local time = redis.call('TIME')
local micros = tonumber(time[1]) * 1000000 + tonumber(time[2])
local now = string.format('%.0f', micros)

for i = 0, events - 1 do
  version = version + 1
  redis.call('XADD', KEYS[1], version .. '-0', 'event', ARGV[firstEvent + i])
end
-- A stream that has a version is in the set already.
if events > 0 and expected == 0 then redis.call('SADD', KEYS[4], stream) end

for i = 0, texts - 1 do
  redis.call('HSET', KEYS[2], ARGV[firstText + 2 * i], ARGV[firstText + 2 * i + 1])
end

if effects > 0 then
  redis.call('ZREMRANGEBYSCORE', KEYS[6], '-inf', '(' .. string.format('%.0f', micros - keep * 1000))
  for i = 0, effects - 1 do
    local id = ARGV[firstEffect + 2 * i]
    if redis.call('ZADD', KEYS[6], 'NX', now, id) == 1 then
      redis.call('XADD', KEYS[5], '*', 'effect', ARGV[firstEffect + 2 * i + 1])
    end
  end
end

if due == 'none' then
  redis.call('ZREM', KEYS[7], stream)
elseif due ~= 'leave' then
  redis.call('ZADD', KEYS[7], due, stream)
end

if begun ~= '' then redis.call('SET', KEYS[8], begun, 'PX', keepBegun, 'NX') end

redis.call('SET', KEYS[3], version .. ' ' .. now, 'PX', keep)
return { 1, version }
