# Nothing needs installing by hand beyond make and Python 3.11 or newer with its venv module.

PYTHON     ?= python3
VENV       ?= .venv
PY         := $(VENV)/bin/python
BIN        := $(VENV)/bin
TREE       ?= examples/harrowlees-11.toml
KIT        ?= examples/van-2.toml
PYTEST_ARGS ?= -n auto --dist loadfile

.DEFAULT_GOAL := help
.PHONY: help run setup test test-fast coverage lint format bench validate cli-reference pictures wheel clean

help:  ## list the targets
	@grep -hE '^[a-z-]+:.*##' $(MAKEFILE_LIST) | sed -E 's/^([a-z-]+):[^#]*## */  \1\t/' | expand -t 18

# Stamp files keep repeated runs quick: pip runs again only after pyproject.toml has changed.
$(VENV)/stamp-venv:
	$(PYTHON) -c 'import sys; sys.exit("Python 3.11 or newer is needed, found " + sys.version.split()[0] if sys.version_info < (3, 11) else 0)'
	$(PYTHON) -m venv $(VENV)
	@touch $@

$(VENV)/stamp-run: $(VENV)/stamp-venv pyproject.toml
	$(PY) -m pip install --quiet --disable-pip-version-check --editable .
	@touch $@

$(VENV)/stamp-dev: $(VENV)/stamp-venv pyproject.toml
	$(PY) -m pip install --quiet --disable-pip-version-check --editable '.[dev]'
	@touch $@ $(VENV)/stamp-run

run: $(VENV)/stamp-run  ## set up, then ask: will this tree tip, and with what?
	$(BIN)/fellwright tip $(TREE) --kit $(KIT)

setup: $(VENV)/stamp-dev  ## virtual environment with everything for development

test: $(VENV)/stamp-dev  ## every test
	$(PY) -m pytest $(PYTEST_ARGS)

test-fast: $(VENV)/stamp-dev  ## the quick tests only
	$(PY) -m pytest -m 'not slow' $(PYTEST_ARGS)

coverage: $(VENV)/stamp-dev  ## branch coverage of physics and planning
	$(PY) -m pytest --cov --cov-report=term-missing $(PYTEST_ARGS)

lint: $(VENV)/stamp-dev  ## format, lint, layers, types
	$(BIN)/ruff format --check .
	$(BIN)/ruff check .
	$(BIN)/lint-imports
	$(BIN)/mypy

format: $(VENV)/stamp-dev  ## rewrite the sources in house format
	$(BIN)/ruff format .
	$(BIN)/ruff check --fix .

bench: $(VENV)/stamp-dev  ## timings, as ratios within one run
	$(PY) -m bench

validate: $(VENV)/stamp-dev  ## wide comparison with large data sets: make validate REFERENCES=dir
	@test -n "$(REFERENCES)" || { echo 'say where the data sets are: make validate REFERENCES=dir' >&2; exit 2; }
	$(PY) -m tests.validation.report --references "$(REFERENCES)"

cli-reference: $(VENV)/stamp-dev  ## write docs/cli.md from the commands themselves
	$(PY) -m tests.meta.cli_reference > docs/cli.md.new
	mv docs/cli.md.new docs/cli.md

pictures: $(VENV)/stamp-dev  ## draw the pictures of the documents again
	$(PY) -m tests.draw.example_pictures
	$(PY) -m tests.print.example_card

wheel: $(VENV)/stamp-dev  ## build the wheel into dist/
	$(PY) -m pip wheel --quiet --no-deps --wheel-dir dist .

clean:  ## remove everything that can be made again
	rm -rf $(VENV) dist build .pytest_cache .mypy_cache .ruff_cache .import_linter_cache .hypothesis .coverage htmlcov
	find . -name __pycache__ -type d -prune -exec rm -rf {} +
