# Levelscoop: `make run` starts the shop, `make test` proves it. Needs only make and Python 3.11 or later.
PYTHON ?= python3
VENV   := .venv
BIN    := $(VENV)/bin
PIP    := $(BIN)/python -m pip --disable-pip-version-check --retries 2
say     = @printf '\n\033[1m» %s\033[0m\n' "$(1)"
stop    = { printf '\n\033[1m» %s\033[0m\n' "$(1)" >&2; exit 1; }

ONCE    = Levelscoop could not be installed: the first start needs the network once, to reach PyPI and the npm registry (or what pip and npm are set to instead); what failed stands above.
NONE    = Levelscoop needs Python 3.11 or later, and $(PYTHON) does not run here. Install Python, or say which to take: make PYTHON=python3.12
GONE    = The Python that $(VENV) was made with is gone. Run make clean, then this again.
sound   = @$(BIN)/python -c '' 2>/dev/null || $(call stop,$(GONE))

# Node and npm come from the virtual environment, so that the machine needs neither.
export PATH := $(CURDIR)/$(BIN):$(PATH)

SCREENS := $(shell find display/src -type f 2>/dev/null) display/index.html display/vite.config.ts display/tsconfig.json

.PHONY: run test check unit explore bench pictures wire lock format clean
.DEFAULT_GOAL := run

run: $(VENV)/.run $(VENV)/.program display/dist/.built
	$(sound)
	@exec $(BIN)/levelscoop serve

test: check unit

# Format, lint and types of both languages: what a reviewer should never have to say.
check: $(VENV)/.test $(VENV)/.program display/node_modules/.installed
	$(sound)
	$(call say,Checking format and lint and types)
	$(BIN)/ruff format --check .
	$(BIN)/ruff check .
	$(BIN)/mypy
	npm --prefix display run --silent check

unit: $(VENV)/.test $(VENV)/.program display/dist/.built
	$(call say,Testing the display)
	npm --prefix display run --silent test
	$(call say,Testing recipes and service and the screens in a browser)
	LEVELSCOOP_BROWSER="$$($(BIN)/python -m tests.browser.provide)" $(BIN)/python -m pytest $(PYTEST)

# Every property test with fresh seeds, N rounds of them, EXAMPLES of each; SEED=… draws a round again.
N ?= 1
EXAMPLES ?= 1000
explore: $(VENV)/.test $(VENV)/.program
	@EXAMPLES=$(EXAMPLES) $(BIN)/python -m tests.explore $(N) "$(SEED)" $(PYTEST)

# Figures, each as a ratio to a floor taken in the same run.
bench: $(VENV)/.test $(VENV)/.program display/dist/.built
	LEVELSCOOP_BROWSER="$$($(BIN)/python -m tests.browser.provide)" $(BIN)/python -m tests.bench

# The pictures in the README, taken of a running demo shop.
pictures: $(VENV)/.test $(VENV)/.program display/dist/.built
	LEVELSCOOP_BROWSER="$$($(BIN)/python -m tests.browser.provide)" $(BIN)/python -m tests.browser.pictures

# The TypeScript types of everything that crosses the wire, from the pydantic models.
wire: $(VENV)/.run $(VENV)/.program display/node_modules/.installed
	npm --prefix display run --silent wire

format: $(VENV)/.test display/node_modules/.installed
	$(BIN)/ruff format .
	$(BIN)/ruff check --fix .
	npm --prefix display run --silent fix

# Resolve the dependencies anew; the only step that may change a pinned version.
lock: $(VENV)/.run
	$(PIP) install --quiet uv
	$(BIN)/uv pip compile pyproject.toml --group build --universal --generate-hashes --python-version 3.11 --no-header --upgrade -q -o requirements.lock
	$(BIN)/uv pip compile pyproject.toml --group dev --universal --generate-hashes --python-version 3.11 --no-header --upgrade -q -o requirements-dev.lock

clean:
	rm -rf $(VENV) display/node_modules display/dist .mypy_cache .ruff_cache .pytest_cache .hypothesis

$(VENV)/.made:
	@$(PYTHON) -c '' 2>/dev/null || $(call stop,$(NONE))
	@$(PYTHON) -c 'import sys; sys.exit(None if sys.version_info >= (3, 11) else "Levelscoop needs Python 3.11 or later; this is " + sys.version.split()[0] + ". Try: make PYTHON=python3.12")'
	$(call say,Making a virtual environment in $(VENV))
	@$(PYTHON) -m venv $(VENV)
	@touch $@

$(VENV)/.run: requirements.lock | $(VENV)/.made
	$(call say,Installing Python packages from requirements.lock)
	$(sound)
	@$(PIP) install --require-hashes -r requirements.lock || $(call stop,$(ONCE))
	@touch $@

$(VENV)/.test: requirements-dev.lock | $(VENV)/.run
	$(call say,Installing what the tests need from requirements-dev.lock)
	$(sound)
	@$(PIP) install --require-hashes -r requirements-dev.lock || $(call stop,$(ONCE))
	@touch $@

$(VENV)/.program: pyproject.toml | $(VENV)/.run
	@$(PIP) install --quiet --no-deps --no-build-isolation --editable .
	@touch $@

display/node_modules/.installed: display/package.json display/package-lock.json | $(VENV)/.run
	$(call say,Installing the display's packages from display/package-lock.json)
	@npm --prefix display ci --no-audit --no-fund || $(call stop,$(ONCE))
	@touch $@

display/dist/.built: display/node_modules/.installed $(SCREENS)
	$(call say,Building the display)
	@npm --prefix display run --silent build
	@touch $@
