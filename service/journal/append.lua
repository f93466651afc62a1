-- Append records to a store's journal, and keep the answer under its idempotency key, in one step.
-- Redis runs a script alone and writes its effects to the AOF as one block: all of it is there after a
-- crash, or none of it.
--
-- KEYS[1] the journal (a stream)   KEYS[2] the idempotency key's place ("" fingerprint: not used)
-- ARGV: expected position, fingerprint, life of the key (s), answer, then of each record
--       kind, version, at, who, device, request, body
-- Answers {"appended", position}, {"answered", answer}, {"reused"} or {"conflict", position}.

local fingerprint = ARGV[2]
if fingerprint ~= "" then
  local kept = redis.call("HMGET", KEYS[2], "fingerprint", "answer")
  if kept[1] then
    if kept[1] == fingerprint then
      return { "answered", kept[2] }
    end
    return { "reused" }
  end
end

local position = 0
local last = redis.call("XREVRANGE", KEYS[1], "+", "-", "COUNT", 1)
if last[1] then
  position = tonumber(string.match(last[1][1], "^%d+"))
end
if position ~= tonumber(ARGV[1]) then
  return { "conflict", position }
end

for first = 5, #ARGV, 7 do
  position = position + 1
  redis.call("XADD", KEYS[1], string.format("%d-0", position),
    "kind", ARGV[first], "version", ARGV[first + 1], "at", ARGV[first + 2],
    "who", ARGV[first + 3], "device", ARGV[first + 4], "request", ARGV[first + 5],
    "body", ARGV[first + 6])
end
if fingerprint ~= "" then
  redis.call("HSET", KEYS[2], "fingerprint", fingerprint, "answer", ARGV[4])
  redis.call("EXPIRE", KEYS[2], ARGV[3])
end
return { "appended", position }
