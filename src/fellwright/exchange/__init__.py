"""Files in: TOML and CSV read from disk into records, with every fault of a file at once."""
