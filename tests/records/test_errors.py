from fellwright.errors import BadInput, Fault, FellwrightError

FAULT = Fault(
    "list.csv",
    3,
    "tree.dbh_cm",
    "4000",
    "must be between 1 and 1000 cm",
    "Measure the girth, divide by 3.14 and write centimetres.",
    "out-of-range",
)


def test_a_fault_reads_as_one_line_with_place_value_rule_and_remedy() -> None:
    assert FAULT.text == (
        "list.csv: row 3: tree.dbh_cm = 4000: must be between 1 and 1000 cm. "
        "Measure the girth, divide by 3.14 and write centimetres."
    )


def test_a_fault_of_a_whole_file_names_the_file_alone() -> None:
    fault = Fault("a.toml", None, "", "", "must exist", "Check the name.", "file-missing")
    assert fault.text == "a.toml: must exist. Check the name."


def test_bad_input_holds_every_fault_and_says_each_on_its_line() -> None:
    error = BadInput(iter([FAULT, FAULT]))
    assert isinstance(error, FellwrightError)
    assert error.faults == (FAULT, FAULT)
    assert str(error).splitlines() == [FAULT.text, FAULT.text]
