"""Settings that every test shares: Hypothesis profiles, and no way out to a network."""

import os
import socket
from collections.abc import Iterator
from typing import Any, NoReturn

import pytest
from hypothesis import settings

# No deadline in either: a test never reads the clock, and the first compiled call is slow.
settings.register_profile("fast", max_examples=50, deadline=None)
settings.register_profile("ci", max_examples=100, deadline=None, derandomize=True, print_blob=True)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "fast"))


def _refuse(_socket: socket.socket, address: Any) -> NoReturn:
    raise AssertionError(f"a test must not reach a network, tried {address!r}")


@pytest.fixture(autouse=True, scope="session")
def _no_network() -> Iterator[None]:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(socket.socket, "connect", _refuse)
        yield
