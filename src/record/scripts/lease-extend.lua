--[[
Extends a lease, if it is still its holder's.

KEYS    1 lease: string, the holder
ARGV    1 holder, 2 milliseconds from now
Output  1 extended, 0 it is free or another's
]]
if redis.call('GET', KEYS[1]) ~= ARGV[1] then return 0 end
return redis.call('PEXPIRE', KEYS[1], ARGV[2])
