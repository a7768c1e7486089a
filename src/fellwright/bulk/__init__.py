"""The same engine compiled, for many trees at once; needs the extra ``bulk`` (numba, numpy)."""
