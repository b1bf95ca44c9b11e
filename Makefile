# Two commands: `make run` and `make test`. Each does its whole set-up first.
PYTHON ?= python3
VENV ?= .venv
BIN = $(VENV)/bin

.PHONY: run test quick bench lint kills setup setup-test clean

run: setup
	$(BIN)/tapeline run

test: setup-test lint
	$(BIN)/pytest -n 2 --dist loadfile -m "not kills"
	$(BIN)/pytest -m kills

# The tests that need no browser and kill no process.
quick: setup-test
	$(BIN)/pytest -n 2 --dist loadfile -m "not kills and not browser"

kills: setup-test
	$(BIN)/pytest -m kills

lint: setup-test
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy
	$(BIN)/lint-imports

bench: setup-test
	$(BIN)/python -m tests.bench

setup: $(VENV)/.run-ready
setup-test: $(VENV)/.test-ready

$(VENV)/.run-ready: pyproject.toml .ci/packages
	.ci/packages run
	test -x $(BIN)/python || $(PYTHON) -m venv $(VENV)
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --editable .
	touch $@

$(VENV)/.test-ready: $(VENV)/.run-ready
	.ci/packages test
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --editable '.[test]'
	touch $@

clean:
	rm -rf $(VENV) build .mypy_cache .pytest_cache .ruff_cache .import_linter_cache .hypothesis
