"""The command line: read, call, show; no arithmetic."""
