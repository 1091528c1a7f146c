--[[
Gives a lease up, if it is still its holder's.

KEYS    1 lease: string, the holder
ARGV    1 holder
Output  1 given up, 0 it is free or another's
]]
if redis.call('GET', KEYS[1]) ~= ARGV[1] then return 0 end
return redis.call('DEL', KEYS[1])
