# Two commands: `make run` and `make test`. Each does its whole set-up first.
PYTHON ?= python3
VENV ?= .venv
BIN = $(VENV)/bin

.PHONY: run test quick bench lint kills setup setup-test versions clean

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

$(VENV)/.run-ready: pyproject.toml constraints.txt .ci/packages .ci/install
	.ci/packages run
	.ci/install run $(VENV) $(PYTHON)

$(VENV)/.test-ready: $(VENV)/.run-ready
	.ci/packages test
	.ci/install test $(VENV) $(PYTHON)

# The newest versions that pyproject.toml allows, for everybody: run the tests before you commit the file.
versions:
	.ci/packages run
	.ci/versions $(PYTHON)

clean:
	rm -rf $(VENV) build .mypy_cache .pytest_cache .ruff_cache .import_linter_cache .hypothesis
