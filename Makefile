# Nothing needs installing by hand beyond make, Python 3.11 or newer with its venv module, and
# Node.js 20.19 or newer for the phone app. FELLWRIGHT_WEB=skip leaves the app out.

PYTHON     ?= python3
VENV       ?= .venv
PY         := $(VENV)/bin/python
BIN        := $(VENV)/bin
TREE       ?= examples/harrowlees-11.toml
KIT        ?= examples/van-2.toml
PYTEST_ARGS ?= -n auto --dist loadfile
NPM        := npm --prefix web --no-audit --no-fund
FIND_APP   := { find web/src web/pack web/public web/index.html web/*.ts web/svelte.config.js web/package.json -type f; \
              find src/fellwright -path src/fellwright/server -prune -o \( -name '*.py' -o -name '*.toml' -o -name '*.csv' \) -print; } | sort
APP_SOURCES := $(shell $(FIND_APP))
APP_LAST   := src/fellwright/server/static/service-worker.js

.DEFAULT_GOAL := help
.PHONY: always help run setup app test test-python test-web test-webkit test-fast coverage lint format bench validate cli-reference pictures wheel clean

help:  ## list the targets
	@grep -hE '^[a-z-]+:.*##' $(MAKEFILE_LIST) | sed -E 's/^([a-z-]+):[^#]*## */  \1\t/' | expand -t 18

# Stamp files keep repeated runs quick: pip runs again only after pyproject.toml has changed.
$(VENV)/stamp-venv:
	$(PYTHON) -c 'import sys; sys.exit("Python 3.11 or newer is needed, found " + sys.version.split()[0] if sys.version_info < (3, 11) else 0)'
	$(PYTHON) -m venv $(VENV)
	@touch $@

$(VENV)/stamp-run: $(VENV)/stamp-venv pyproject.toml
	FELLWRIGHT_WEB=skip $(PY) -m pip install --quiet --disable-pip-version-check --editable .
	@touch $@

$(VENV)/stamp-dev: $(VENV)/stamp-venv pyproject.toml
	FELLWRIGHT_WEB=skip $(PY) -m pip install --quiet --disable-pip-version-check --editable '.[dev]'
	@touch $@ $(VENV)/stamp-run

# The app is built into the package, where `fellwright serve` and a wheel find it.
$(VENV)/stamp-node: $(VENV)/stamp-venv web/package-lock.json
	@node -e 'const [major, minor] = process.versions.node.split("."); process.exit(+(major < 20 || (major == 20 && minor < 19)))' \
	  || { echo 'Node.js 20.19 or newer is needed for the phone app; FELLWRIGHT_WEB=skip leaves it out' >&2; exit 1; }
	$(NPM) ci --silent
	@touch $@

# Built again after a source has changed, has come or gone, or after the app itself has gone.
$(VENV)/app-sources: $(VENV)/stamp-venv always
	@$(FIND_APP) > $@.new
	@cmp -s $@.new $@ && rm $@.new || mv $@.new $@

$(VENV)/stamp-app: $(VENV)/stamp-node $(VENV)/app-sources $(APP_SOURCES) $(if $(wildcard $(APP_LAST)),,always)
	$(NPM) run --silent build
	@touch $@

ifeq ($(FELLWRIGHT_WEB),skip)
APP :=
run: $(VENV)/stamp-run
	$(BIN)/fellwright tip $(TREE) --kit $(KIT)
else
APP := $(VENV)/stamp-app
run: $(VENV)/stamp-run $(APP)  ## set up, ask about the first example tree, then open the app on it
	$(BIN)/fellwright tip $(TREE) --kit $(KIT)
	@$(BIN)/fellwright serve --open --demo
endif

setup: $(VENV)/stamp-dev $(APP)  ## virtual environment and app with everything for development

app: $(APP)  ## build the phone app into the package

test: $(if $(APP),test-web) test-python  ## every test, the browser's included

test-python: $(VENV)/stamp-dev $(APP)
	$(if $(APP),@sh web/tests/browser/install.sh)
	$(PY) -m pytest $(PYTEST_ARGS)

test-web: $(VENV)/stamp-dev $(APP)  ## the app: types, lint, units, and a real browser
	$(NPM) run --silent check
	@sh web/tests/browser/install.sh
	$(NPM) run --silent test

test-webkit: $(VENV)/stamp-dev $(APP)  ## the app in WebKit, the stand-in for iOS, before a release
	@sh web/tests/webkit/install.sh
	$(NPM) run --silent test-webkit

test-fast: $(VENV)/stamp-dev  ## the quick tests only
	$(PY) -m pytest -m 'not slow' $(PYTEST_ARGS)

coverage: $(VENV)/stamp-dev $(APP)  ## branch coverage of physics and planning
	$(PY) -m pytest --cov --cov-report=term-missing $(PYTEST_ARGS)

lint: $(VENV)/stamp-dev  ## format, lint, layers, types
	$(BIN)/ruff format --check .
	$(BIN)/ruff check .
	$(BIN)/lint-imports
	$(BIN)/mypy

format: $(VENV)/stamp-dev  ## rewrite the sources in house format
	$(BIN)/ruff format .
	$(BIN)/ruff check --fix .

bench: $(VENV)/stamp-dev $(APP)  ## timings, as ratios within one run
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

wheel: $(VENV)/stamp-dev $(APP)  ## build the wheel into dist/, the app in it
	FELLWRIGHT_WEB=$(if $(APP),built,skip) $(PY) -m pip wheel --quiet --no-build-isolation --no-deps --wheel-dir dist .

clean:  ## remove everything that can be made again
	rm -rf $(VENV) dist build src/fellwright/server/static web/node_modules .pytest_cache .mypy_cache .ruff_cache .import_linter_cache .hypothesis .coverage htmlcov
	find . -name __pycache__ -type d -prune -exec rm -rf {} +
