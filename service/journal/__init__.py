"""The journal: what it promises, its two stores, its records, the fold and whoever hands it commands."""
