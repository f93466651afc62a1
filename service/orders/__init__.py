"""From ring-in to hand-off: commands, events, state, what is decided, and what displays are told of it."""
