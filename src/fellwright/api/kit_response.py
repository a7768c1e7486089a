"""A kit file as a phone brings it: its tables, checked, with every fault at once."""

from collections.abc import Mapping

from fellwright.errors import BadInput, Fault
from fellwright.records.loader import read_kit
from fellwright.records.toml_text import parse_toml
from fellwright.words import Text, say

__all__ = ["KIT_SCHEMA", "kit_answer"]

KIT_SCHEMA = "fellwright/kit/1"


def kit_answer(request: Mapping[str, object]) -> dict[str, object]:
    """Read a kit file.

    Parameters
    ----------
    request : mapping
        ``toml``: the text of the file, or ``kit``: its tables.

    Returns
    -------
    dict
        ``kit`` as its tables, as other questions take them; ``devices`` by ``name`` and ``kind``.

    Raises
    ------
    BadInput
        With every fault of the file.
    """
    source = say("fault.kit_file")
    tables = _tables(request, source)
    kit = read_kit(tables, source)
    return {
        "schema": KIT_SCHEMA,
        "kit": tables,
        "devices": [{"name": device.name, "kind": device.kind} for device in kit.devices],
    }


def _tables(request: Mapping[str, object], source: Text) -> Mapping[str, object]:
    text, tables = request.get("toml"), request.get("kit")
    if isinstance(text, str):
        return parse_toml(text, source)
    if isinstance(tables, Mapping):
        return tables
    fault = Fault(
        say("fault.request"), None, "kit", "", say("rule.given"), say("remedy.start"), "missing-key"
    )
    raise BadInput([fault])
