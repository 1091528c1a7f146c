--[[
Reads at once what the handling of an update is likely to ask for.

KEYS
  1 update       string: what became of the update
  2 people-chats hash, chat id -> person
  3 people       hash, person -> data (JSON)
  then events and texts of each stream, then the context of each person

ARGV
  1 the chat's id
  2 number of streams   followed by the version of each from which on its events are wanted, 1 or more

Output  { update, person of the chat, all people's data, streams, contexts }
  a stream  { its entries, the last entry's id where there are none, the edition of its words (their field without a name) }
  a context is the hash as a flat list; what there is not is null
]]
local streams = {}
local count = tonumber(ARGV[2])
for n = 1, count do
  local events, texts = KEYS[2 * n + 2], KEYS[2 * n + 3]
  local entries = redis.call('XRANGE', events, ARGV[n + 2], '+')
  local last = false
  if #entries == 0 then
    local final = redis.call('XREVRANGE', events, '+', '-', 'COUNT', 1)[1]
    last = final and final[1]
  end
  streams[n] = { entries, last or false, redis.call('HGET', texts, '') }
end

local contexts = {}
for n = 2 * count + 4, #KEYS do
  contexts[#contexts + 1] = redis.call('HGETALL', KEYS[n])
end

return {
  redis.call('GET', KEYS[1]),
  redis.call('HGET', KEYS[2], ARGV[1]),
  redis.call('HVALS', KEYS[3]),
  streams,
  contexts
}
