"""The same engine compiled, for many trees at once; needs the extra ``bulk`` (numba, numpy)."""

import importlib

for needed in ("numba", "numpy"):
    try:
        importlib.import_module(needed)
    except ImportError as missing:
        text = f"fellwright.bulk needs {needed}: pip install 'fellwright[bulk]'"
        raise ImportError(text, name=needed) from missing
