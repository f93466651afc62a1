"""The machine: settings, clock, data folder, log, the server that keeps the journal, work off the loop."""
