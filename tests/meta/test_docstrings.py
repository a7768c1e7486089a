"""Every public formula says what it takes, what it gives, and where it comes from."""

import inspect
import re

import pytest
from tests.meta.sources import KEY, MARK, physics_formulas, physics_modules, reference_entries

FORMULAS = physics_formulas()
SECTION = re.compile(r"^(\w[\w ]*)\n-{3,}$", re.MULTILINE)


def sections(docstring: str) -> dict[str, str]:
    parts = SECTION.split(docstring)
    return dict(zip(parts[1::2], parts[2::2], strict=True))


@pytest.mark.parametrize("name", FORMULAS)
def test_formula_describes_every_parameter_and_its_result(name: str) -> None:
    formula = FORMULAS[name]
    parts = sections(inspect.getdoc(formula) or "")
    assert parts.get("Returns", "").strip(), f"{name}: docstring needs a Returns section"
    listed = re.findall(r"^(\w[\w, ]*?) ?:", parts.get("Parameters", ""), re.MULTILINE)
    described = {one.strip() for line in listed for one in line.split(",")}
    missing = [one for one in inspect.signature(formula).parameters if one not in described]
    assert not missing, f"{name}: Parameters section lacks {missing}"


@pytest.mark.parametrize("name", FORMULAS)
def test_formula_names_a_known_source_or_carries_a_mark(name: str) -> None:
    docstring = inspect.getdoc(FORMULAS[name]) or ""
    keys = set(KEY.findall(docstring))
    assert keys or MARK.search(docstring), f"{name}: cite a [Key] or say OWN, PRACTICE or MEMORY"
    unknown = keys - reference_entries().keys()
    assert not unknown, f"{name}: {sorted(unknown)} not in docs/references.md"


@pytest.mark.parametrize("module", physics_modules(), ids=lambda module: module.__name__)
def test_physics_module_lists_all_its_public_functions(module: object) -> None:
    defined = {
        name
        for name, member in inspect.getmembers(module, inspect.isfunction)
        if not name.startswith("_") and member.__module__ == getattr(module, "__name__", "")
    }
    hidden = defined - set(getattr(module, "__all__", ()))
    assert not hidden, f"__all__ lacks {sorted(hidden)}; a private function starts with _"
