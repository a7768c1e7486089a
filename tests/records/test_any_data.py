from typing import Any

from hypothesis import given
from hypothesis import strategies as st
from tests.records.samples import kit_data, tree_data
from tests.records.strategies import ANYTHING, KEYS, kit_files, tree_files

from fellwright.errors import BadInput
from fellwright.records.loader import read_kit, read_tree


def assert_faults_say_everything(error: BadInput) -> None:
    assert error.faults
    for fault in error.faults:
        assert fault.file == "file"
        assert fault.rule.startswith("must ")
        assert fault.remedy.endswith(".")
        assert fault.code == fault.code.casefold()
        assert fault.field or fault.value
        assert fault.value or fault.code == "missing-key"
        assert fault.text.isprintable(), fault.text
        assert len(fault.text) < 1500


def read_either(data: Any) -> None:
    for read in (read_tree, read_kit):
        codes_of(read, data)


@given(ANYTHING)
def test_any_data_is_read_or_refused_with_faults_that_say_everything(data: Any) -> None:
    read_either(data)


@given(st.data())
def test_a_good_file_spoilt_in_one_place_is_read_or_refused(draws: st.DataObject) -> None:
    for good in (tree_data(), kit_data()):
        place: Any = good
        while True:
            keys = list(place) if isinstance(place, dict) else list(range(len(place)))
            key = draws.draw(st.sampled_from(keys) if keys else st.just(0))
            inner = place[key] if keys else None
            if not isinstance(inner, (dict, list)) or not inner or draws.draw(st.booleans()):
                break
            place = inner
        if isinstance(place, dict):
            place[draws.draw(st.just(key) | KEYS)] = draws.draw(ANYTHING)
        else:
            place.append(draws.draw(ANYTHING))
        read_either(good)


def test_keys_that_are_no_text_are_refused() -> None:
    read_either({3: 4, None: 5, "tree": {(): 1, 2.5: 2}})


def codes_of(read: Any, data: Any) -> set[str]:
    """Return the codes of the faults found, none where the data is read."""
    try:
        read(data, "file")
    except BadInput as error:
        assert_faults_say_everything(error)
        return {fault.code for fault in error.faults}
    return set()


@given(tree_files())
def test_values_in_range_are_refused_only_for_contradicting_each_other(data: Any) -> None:
    assert codes_of(read_tree, data) <= {"contradiction", "wrong-factor"}


@given(kit_files())
def test_kit_values_in_range_are_read(data: Any) -> None:
    assert codes_of(read_kit, data) == set()
