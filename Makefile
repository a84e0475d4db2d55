# One word for each thing that is done here; `make` alone lists them.
PYTHON ?= python3
PORT ?= 8024
DATA ?= data
VENV := .venv
PY := $(VENV)/bin/python

.PHONY: help run setup setup-tests test test-all check format figures clean

help: ## list what can be done
	@grep -E '^[a-z-]+:.*##' $(MAKEFILE_LIST) | sed 's/:.*##/:/' | column -t -s:

run: $(VENV)/.run ## serve the bench on 127.0.0.1 (PORT=8024, DATA=data)
	$(PY) -m app serve --port $(PORT) --data $(DATA)

test: setup-tests ## set up everything for the tests and run them
	$(PY) -m pytest -n 2

test-all: setup-tests ## the tests, the slow sweeps and mutation testing
	$(PY) -m pytest -n 2 -m "slow or not slow"
	$(PY) -m tests.mutation

check: setup-tests ## format, lint, types, import contracts, types of the scripts
	$(VENV)/bin/ruff format --check .
	$(VENV)/bin/ruff check .
	$(VENV)/bin/mypy
	$(VENV)/bin/lint-imports
	tsc -p jsconfig.json

format: $(VENV)/.dev ## put the code into the common format
	$(VENV)/bin/ruff format .
	$(VENV)/bin/ruff check --fix .

figures: setup-tests ## print the measurements
	$(PY) -m tests.figures

setup: $(VENV)/.dev ## make the environment with the tools of a contributor

setup-tests: $(VENV)/.dev $(VENV)/.system

$(VENV)/bin/python:
	$(PYTHON) -m venv $(VENV)

$(VENV)/.run: requirements.lock pyproject.toml | $(VENV)/bin/python
	$(VENV)/bin/pip install --quiet --require-hashes -r requirements.lock
	$(VENV)/bin/pip install --quiet --no-deps --no-build-isolation --editable .
	touch $@

$(VENV)/.dev: requirements-dev.lock pyproject.toml | $(VENV)/bin/python
	$(VENV)/bin/pip install --quiet --require-hashes -r requirements-dev.lock
	$(VENV)/bin/pip install --quiet --no-deps --no-build-isolation --editable .
	touch $@ $(VENV)/.run

$(VENV)/.system: .ci/system-packages | $(VENV)/bin/python
	bash .ci/system-packages $(PY)
	touch $@

clean: ## take away what was made here, but not the data
	rm -rf $(VENV) .mypy_cache .ruff_cache .pytest_cache .hypothesis
