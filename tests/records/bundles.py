"""Bundles for tests: one event of every kind, and strategies for any number of them."""

import json
import uuid
from typing import Any

from hypothesis import strategies as st

from fellwright.records.event import Event, read_event
from fellwright.records.fault_log import FaultLog

TREE = "6f1c1c0e-6f0f-4c1b-9a51-0c6a3e2b7d11"
DEVICE = "harrowlees-phone-1"
ID = "0195574e-3c80-7a31-8f5e-1d2c3b4a5968"

BODIES: dict[str, dict[str, Any]] = {
    "tree": {"name": "Harrowlees 11"},
    "reading": {"path": "tree.dbh_cm", "value": 40, "typed": "40", "how": "girth"},
    "kit": {"name": "van 2", "kit": {"device": [{"name": "Dipper", "kind": "screw wedge"}]}},
    "van": {"device": "Dipper", "present": True},
    "setting": {"key": "force", "value": "t"},
    "plan": {"request": {"tree": {}}, "verdict": "TIGHT", "engine": "0.1.0", "answer": {}},
    "trimmed": {"stump_diameter_cm": 46},
    "notch": {"beside_m": 0.4, "distance_m": 20, "side": "left", "aim_error_deg": None},
    "ready": {"item": "ring clear", "done": True},
    "drive": {"stage": "bed in", "turns": 2},
    "stump": {"hinge_left_mm": 46, "went": ["fibre pull"], "lay_side": None},
    "state": {"state": "down"},
}


def event(kind: str = "reading", **changes: Any) -> dict[str, Any]:
    """One good event as plain data, with what is to be different."""
    whole = {
        "id": ID,
        "device": DEVICE,
        "seq": 1,
        "at": "2026-03-02T07:40:00+01:00",
        "schema": 1,
        "kind": kind,
        "tree": TREE,
        "by": "HB",
        "body": BODIES.get(kind, {}),
    }
    return whole | changes


def bundle(*events: Any, **changes: Any) -> dict[str, Any]:
    """One good bundle as plain data, with what is to be different."""
    whole = {
        "schema": "fellwright/bundle/1",
        "engine": "0.1.0",
        "exported_at": "2026-03-02T16:05:00Z",
        "device": DEVICE,
        "events": list(events),
    }
    return whole | changes


def text(*events: Any, **changes: Any) -> str:
    """One bundle as the text of its file."""
    return json.dumps(bundle(*events, **changes))


def uuid_7(number: int) -> str:
    """A UUIDv7 that counts."""
    return str(uuid.UUID(int=(number << 80 & (2**128 - 1)) | 0x7000_8000_0000_0000_0000))


JSON_VALUES = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-(2**53), 2**53)
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(st.characters(codec="utf-8"), max_size=8),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(st.text(st.characters(codec="utf-8"), max_size=6), inner, max_size=3)
    ),
    max_leaves=8,
)


@st.composite
def events(draw: st.DrawFn) -> Event:
    """Draw an event; few ids, so that they meet often, equal and clashing."""
    kind = draw(st.sampled_from([*BODIES, "weather", "rope-check"]))
    body = draw(st.dictionaries(st.text("xyz", min_size=3, max_size=4), JSON_VALUES, max_size=2))
    raw = event(
        kind,
        id=uuid_7(draw(st.integers(1, 6))),
        seq=draw(st.integers(1, 2)),
        body=body | BODIES.get(kind, {}),
        by=draw(st.sampled_from([None, "HB", "K. Ö."])),
    )
    log = FaultLog("event")
    read = read_event(log, "event", raw)
    assert read is not None, [fault.text for fault in log.faults]
    return read


HEAPS = st.lists(events(), max_size=12)
