"""A kit file as a phone brings it: its tables, checked, with every fault at once."""

from collections.abc import Mapping

from fellwright.errors import BadInput, Fault
from fellwright.records.loader import read_kit
from fellwright.records.toml_text import parse_toml
from fellwright.words import say

__all__ = ["KIT_SCHEMA", "kit_answer"]

KIT_SCHEMA = "fellwright/kit/1"


def kit_answer(request: Mapping[str, object]) -> dict[str, object]:
    """Read a kit file.

    Parameters
    ----------
    request : mapping
        ``toml``: the text of the file.

    Returns
    -------
    dict
        ``kit`` as its tables, as other questions take them; ``devices`` by ``name`` and ``kind``.

    Raises
    ------
    BadInput
        With every fault of the file.
    """
    text = request.get("toml")
    if not isinstance(text, str):
        rule = say("rule.given")
        raise BadInput(
            [Fault(say("fault.request"), None, "toml", "", rule, say("remedy.start"), "missing")]
        )
    tables = parse_toml(text, say("fault.kit_file"))
    kit = read_kit(tables, say("fault.kit_file"))
    return {
        "schema": KIT_SCHEMA,
        "kit": tables,
        "devices": [{"name": device.name, "kind": device.kind} for device in kit.devices],
    }
