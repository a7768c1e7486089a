"""The compiled twin of a kernel: the same code, with every kernel it calls compiled as well."""

import functools
import pickle
import shutil
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from types import CodeType, FunctionType
from typing import Any, ParamSpec, TypeVar, cast

import numba
import numba.core.config

from fellwright.bulk.kernel_cache import cache_folder
from fellwright.kernel import MARK

__all__ = ["compiled", "names_in"]

P = ParamSpec("P")
R = TypeVar("R")

UNREADABLE = (OSError, EOFError, pickle.UnpicklingError)
"""What a full disk, a folder taken away or a damaged file raises. No kernel raises any of them."""

_settings: Any = numba.core.config
"""Set from the environment as numba starts, so no type checker knows its names."""

_lock = threading.RLock()
_callees: dict[FunctionType, Any] = {}


def compiled(function: Callable[P, R]) -> Callable[P, R]:
    """Compile a kernel, or a loop over kernels.

    Parameters
    ----------
    function : callable
        A plain function. Whatever it calls by a global name and is marked as a kernel is compiled
        too; anything else must be known to numba.

    Returns
    -------
    callable
        Takes and returns the same. Compiled at the first call with each set of argument types and
        kept between runs where a folder can be written; quietly for this run only where not.

    Raises
    ------
    TypeError
        If it is not a plain function, or one with variables of an enclosing function.

    Notes
    -----
    Strict floating point, no reordering; division by zero raises as in Python. Where ``math``
    raises on a bad argument, compiled code gives NaN or infinity: the caller looks for them.
    """
    with _lock:
        return cast("Callable[P, R]", _entry(_plain(function)))


@functools.cache
def _entry(function: FunctionType) -> Callable[..., Any]:
    """The function itself is kept between runs; what it calls is compiled into it."""
    kept = _kept(function)
    if kept is None:
        return cast("Callable[..., Any]", _callee(function))
    runs: list[Any] = [kept]

    @functools.wraps(function)
    def run(*arguments: Any) -> Any:
        try:
            return runs[0](*arguments)
        except UNREADABLE:
            if runs[0] is not kept:
                raise
            with _lock:
                runs[0] = _callee(function)
                _clear_away(kept)
            return runs[0](*arguments)

    return run


def _kept(function: FunctionType) -> Any | None:
    folder = cache_folder()
    if folder is None:
        return None
    with _numba_keeps_in(folder):
        try:
            dispatcher = numba.njit(cache=True)(_relinked(function))
        except RuntimeError:  # numba finds no place for it, as for a function typed at a prompt
            return None
    # numba goes elsewhere when it cannot use our folder, and there it would miss changed callees.
    path = dispatcher.stats.cache_path
    return dispatcher if path and Path(path).is_relative_to(folder) else None


def _clear_away(dispatcher: Any) -> None:
    """Remove what could not be read, so that the next run starts afresh; it is ours alone."""
    shutil.rmtree(dispatcher.stats.cache_path, ignore_errors=True)


def _callee(function: FunctionType) -> Any:
    """Compile for this run only."""
    if function not in _callees:
        _callees[function] = numba.njit(_relinked(function))
    return _callees[function]


def _relinked(function: FunctionType) -> FunctionType:
    """Copy a function so that its global names lead to the compiled twins."""
    names = names_in(function.__code__) & function.__globals__.keys()
    found = {name: function.__globals__[name] for name in names}
    marked = {
        name: _callee(_plain(value))
        for name, value in found.items()
        if getattr(value, MARK, False) and value is not function
    }
    place = {"__name__": function.__module__, "__builtins__": __builtins__}
    twin = FunctionType(
        function.__code__, place | found | marked, function.__name__, function.__defaults__
    )
    twin.__kwdefaults__ = function.__kwdefaults__
    twin.__qualname__ = function.__qualname__
    twin.__module__ = function.__module__
    return twin


def names_in(code: CodeType) -> set[str]:
    """Every name that a function's code looks up, those of code nested in it included."""
    nested = [const for const in code.co_consts if isinstance(const, CodeType)]
    return set(code.co_names).union(*map(names_in, nested))


def _plain(function: object) -> FunctionType:
    if not isinstance(function, FunctionType):
        raise TypeError(f"function must be a plain function, got {type(function).__name__}")
    if function.__closure__:
        raise TypeError(f"function must stand on its own, got {function.__qualname__} with a scope")
    return function


@contextmanager
def _numba_keeps_in(folder: Path) -> Iterator[None]:
    """Point numba's cache at a folder while a function is set up; leave others' settings alone."""
    before = _settings.CACHE_DIR
    _settings.CACHE_DIR = str(folder)
    try:
        yield
    finally:
        _settings.CACHE_DIR = before
