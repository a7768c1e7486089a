"""What a module offers is listed, sorted and there."""

from types import ModuleType

import pytest
from tests.meta.sources import package_modules

LISTING = [module for module in package_modules() if hasattr(module, "__all__")]


def order(name: str) -> tuple[int, str]:
    """Constants, then classes, then functions, each by name (as `ruff check --fix` sorts them)."""
    kind = 0 if name.isupper() else 1 if name[:1].isupper() else 2
    return kind, name


@pytest.mark.parametrize("module", LISTING, ids=lambda module: module.__name__)
def test_exports_are_sorted_and_exist(module: ModuleType) -> None:
    names = list(module.__all__)
    assert names == sorted(set(names), key=order)
    missing = [name for name in names if not hasattr(module, name)]
    assert not missing, f"in __all__ but not in the module: {missing}"
