"""The rules of the house: which room may know which, what a command may load, sizes and style."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest
from every import every

ROOT = Path(__file__).parent.parent
MODULES = sorted((ROOT / "appraise").rglob("*.py"))
TOP = {"README.md", "DEVELOPERS.md", "pyproject.toml", "appraise", "data", "tests", "demo"}


def loaded_by(statement):
    """The modules that a clean interpreter holds after a statement."""
    code = f"{statement}\nimport sys\nprint('\\n'.join(sys.modules))"
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, cwd=ROOT, check=True
    )
    return set(done.stdout.split())


@pytest.mark.parametrize(
    ("statement", "never"),
    [
        ("import appraise.verdict", {"textual", "rich", "sqlite3"}),
        (
            "import appraise.app.desk",
            {"numpy", "appraise.verdict", "yaml", "appraise.commands.rows_log"},
        ),
        ("import appraise.pricing.worth", {"textual", "rich", "sqlite3"}),
        ("import appraise.store.log", {"textual", "rich", "numpy"}),
        ("import appraise.documents.verdict", {"textual", "rich", "sqlite3"}),
        ("import appraise.cli.log", {"textual", "rich", "numpy", "appraise.pricing"}),
        (
            "import appraise.store.owned_pieces, appraise.store.bench, appraise.documents.bench, "
            "appraise.documents.owned_lists, appraise.documents.writers.lines",
            {"numpy", "yaml"},
        ),
        (
            "import appraise.cli.main",
            {"textual", "rich", "sqlite3", "numpy", "rapidfuzz", "yaml", "appraise.knowledge"},
        ),
        (
            "import appraise.commands.records, appraise.commands.owned, appraise.commands.lots",
            {"textual", "rich", "sqlite3", "numpy", "argparse", "appraise.documents"},
        ),
        ("import appraise.listing.first_look", {"textual", "rich", "sqlite3", "numpy"}),
    ],
)
def test_a_clean_interpreter_loads_no_more_than_it_needs(statement, never):
    assert loaded_by(statement).isdisjoint(never)


def run(*command):
    return subprocess.run(
        [sys.executable, "-m", *command], capture_output=True, text=True, cwd=ROOT, check=False
    )


def test_imports_point_one_way():
    # import-linter has no module of its own to run; its command lies beside the interpreter.
    command = Path(sys.executable).parent / "lint-imports"
    done = subprocess.run(
        [command, "--no-cache"], capture_output=True, text=True, cwd=ROOT, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr


def test_lint():
    done = run("ruff", "check", "--no-cache", "appraise", "tests")
    assert done.returncode == 0, done.stdout


def test_format():
    done = run("ruff", "format", "--no-cache", "--check", "appraise", "tests")
    assert done.returncode == 0, done.stdout


def test_types():
    done = run("mypy")
    assert done.returncode == 0, done.stdout


@every("path", MODULES, ids=lambda path: str(path.relative_to(ROOT)))
def test_modules_and_functions_stay_small(path):
    text = path.read_text(encoding="utf-8")
    assert text.count("\n") <= 500
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            assert node.end_lineno - node.lineno < 40, f"{node.name} is too long"


def test_the_top_level_holds_what_it_should():
    listed = subprocess.run(
        ["git", "ls-files"], capture_output=True, text=True, cwd=ROOT, check=True
    )
    names = {name.split("/")[0] for name in listed.stdout.split("\n") if name}
    assert {name for name in names if not name.startswith(".")} == TOP


def imports_of(name, path, modules):
    """The modules of ours that one imports, wherever in it; what is for types alone is left out."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    for node in list(ast.walk(tree)):
        if isinstance(node, ast.If) and "TYPE_CHECKING" in ast.dump(node.test):
            node.body = []
    found = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and node.module:
            for each in node.names:
                whole = f"{node.module}.{each.name}"
                found.add(whole if whole in modules else node.module)
    return (found & modules.keys()) - {name}


def test_no_two_modules_form_a_circle():
    modules = {
        ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__"): path
        for path in MODULES
    }
    waits = {name: imports_of(name, path, modules) for name, path in modules.items()}
    while free := {name for name, others in waits.items() if not others & waits.keys()}:
        waits = {name: others for name, others in waits.items() if name not in free}
    assert not waits, f"these import each other, or what does: {', '.join(sorted(waits))}"


@every("path", MODULES, ids=lambda path: str(path.relative_to(ROOT)))
def test_dataclasses_are_those_that_are_quick_to_declare(path):
    if path == ROOT / "appraise/base/dataclass.py":
        return
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module == "dataclasses":
            taken = {one.name for one in node.names}
            assert "dataclass" not in taken, "take it from appraise.base.dataclass"
