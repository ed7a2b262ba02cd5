"""For `bench_mutants`: notes which test reaches which line of the rooms that get faults.

A plugin of the tests (`-p bench.reached`); the note is `reached.json` where they are run.
"""

import json
from pathlib import Path

import coverage
import pytest

ROOMS = ("appraise.reading", "appraise.pricing", "appraise.records")
NOTED = coverage.Coverage(data_file=None, source_pkgs=ROOMS, config_file=False)
NOTED.set_option("run:disable_warnings", ["module-not-imported", "module-not-measured"])
NOTED.start()


@pytest.hookimpl(hookwrapper=True)
def pytest_runtest_protocol(item):
    NOTED.switch_context(item.nodeid.partition("[")[0])
    yield
    NOTED.switch_context("")


def pytest_sessionfinish():
    NOTED.stop()
    data, here = NOTED.get_data(), Path.cwd()
    told = {}
    for file in data.measured_files():
        by_line = data.contexts_by_lineno(file)
        tests = {line: sorted(set(one) - {""}) for line, one in by_line.items()}
        told[Path(file).relative_to(here).as_posix()] = tests
    Path("reached.json").write_text(json.dumps(told), encoding="utf-8")
