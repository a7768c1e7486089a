"""Without its extra, the part says what to install."""

import importlib
import sys

import pytest


@pytest.mark.parametrize("missing", ["numba", "numpy"])
def test_missing_extra_is_named(missing: str, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in [name for name in sys.modules if name.split(".")[:2] == ["fellwright", "bulk"]]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.setitem(sys.modules, missing, None)
    with pytest.raises(ImportError, match=rf"needs {missing}: pip install 'fellwright\[bulk\]'"):
        importlib.import_module("fellwright.bulk")
