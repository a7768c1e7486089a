"""The twin of a kernel: the same code, linked to compiled callees, kept between processes."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

pytest.importorskip("numba", reason="the compiled twin needs the extra 'bulk'")

import fellwright
from fellwright.bulk import twin
from fellwright.bulk.twin import compiled, names_in
from fellwright.kernel import kernel
from fellwright.physics import notch, splitting

BEAM = (5e4, 8e9, 0.5, 0.2)


@kernel
def halved(x: float) -> float:
    return 0.5 * x


@kernel
def shifted(x: float, by: float = 2.0) -> float:
    return halved(x) + by


def test_callee_is_compiled_without_touching_the_plain_function() -> None:
    before = dict(splitting.energy_release_j_per_m2.__globals__)
    value = compiled(splitting.energy_release_j_per_m2)(*BEAM)
    assert value == pytest.approx(splitting.energy_release_j_per_m2(*BEAM), rel=1e-12)
    assert splitting.energy_release_j_per_m2.__globals__ == before


def test_twin_is_made_once() -> None:
    assert compiled(notch.chord_m) is compiled(notch.chord_m)


def test_defaults_are_kept() -> None:
    assert compiled(shifted)(3.0) == shifted(3.0) == 3.5
    assert compiled(shifted)(3.0, 1.0) == 2.5


def test_names_of_nested_code_are_found() -> None:
    def outer(values: list[float]) -> list[float]:
        return [halved(value) for value in values]

    assert "halved" in names_in(outer.__code__)


def test_what_is_no_plain_function_is_refused() -> None:
    factor = 2.0

    def enclosed(x: float) -> float:
        return factor * x

    with pytest.raises(TypeError, match="must stand on its own"):
        compiled(enclosed)
    with pytest.raises(TypeError, match="must be a plain function"):
        compiled(abs)


def test_division_by_zero_raises_as_in_python() -> None:
    with pytest.raises(ZeroDivisionError):
        compiled(splitting.energy_release_j_per_m2)(5e4, 0.0, 0.5, 0.2)


def test_nothing_is_kept_where_no_folder_can_be(monkeypatch: pytest.MonkeyPatch) -> None:
    @kernel
    def tripled(x: float) -> float:
        return 3.0 * x

    monkeypatch.setattr(twin, "cache_folder", lambda: None)
    assert compiled(tripled)(2.0) == 6.0


def run(package: Path, home: Path, code: str) -> tuple[str, str]:
    """Run code in a process of its own; what it printed, and what numba said of its cache."""
    found = subprocess.run(
        [sys.executable, "-c", code],
        env={
            "PATH": os.environ.get("PATH", ""),
            "PYTHONPATH": str(package.parent),
            "XDG_CACHE_HOME": str(home),
            "TMPDIR": str(home),
            "HOME": str(home),
            "NUMBA_DEBUG_CACHE": "1",
        },
        capture_output=True,
        text=True,
        check=True,
    )
    lines = found.stdout.splitlines()
    cache = [line for line in lines if line.startswith("[cache]")]
    assert found.stderr == ""
    return "".join(line for line in lines if line not in cache), "\n".join(cache)


CODE = f"""
from fellwright.bulk.twin import compiled
from fellwright.physics.splitting import energy_release_j_per_m2
print(compiled(energy_release_j_per_m2)(*{BEAM}) / energy_release_j_per_m2(*{BEAM}))
"""


@pytest.fixture
def package(tmp_path: Path) -> Path:
    """Copy the package, to be edited and run."""
    source = Path(fellwright.__file__).parent
    ignored = shutil.ignore_patterns("__pycache__", ".*")
    return Path(shutil.copytree(source, tmp_path / "src" / "fellwright", ignore=ignored))


@pytest.mark.slow
def test_second_process_loads_and_a_changed_callee_is_compiled_again(
    package: Path, tmp_path: Path
) -> None:
    home = tmp_path / "cache"
    value, cache = run(package, home, CODE)
    assert "data saved to" in cache
    assert "data loaded from" not in cache
    assert str(home) in cache
    again, cache = run(package, home, CODE)
    assert "data loaded from" in cache
    assert "data saved to" not in cache
    assert float(value) == pytest.approx(1.0, rel=1e-12)
    assert again == value

    callee = package / "physics" / "notch.py"
    text = callee.read_text(encoding="utf-8")
    callee.write_text(text.replace("return 2.0 * math.sqrt", "return 3.0 * math.sqrt"), "utf-8")
    changed, cache = run(package, home, CODE)
    assert "data loaded from" not in cache
    assert float(changed) == pytest.approx(1.0, rel=1e-12)


@pytest.mark.slow
def test_a_damaged_cache_is_compiled_round_and_mended(package: Path, tmp_path: Path) -> None:
    home = tmp_path / "cache"
    run(package, home, CODE)
    for damage in (b"", b"no pickle"):
        kept = [*home.rglob("*.nbi"), *home.rglob("*.nbc")]
        assert len(kept) == 2
        for path in kept:
            path.write_bytes(damage)
        assert float(run(package, home, CODE)[0]) == pytest.approx(1.0, rel=1e-12)
        assert "data saved to" in run(package, home, CODE)[1]


@pytest.mark.slow
def test_a_process_that_may_write_nowhere_still_compiles(package: Path, tmp_path: Path) -> None:
    blocked = tmp_path / "file"
    blocked.write_text("in the way", encoding="utf-8")
    value, cache = run(package, blocked, CODE)
    assert float(value) == pytest.approx(1.0, rel=1e-12)
    assert cache == ""
    assert not list(package.rglob("*.nbi"))
