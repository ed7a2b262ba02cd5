import subprocess
import sys

import pytest


@pytest.mark.parametrize("module", ["bid", "bill", "lot", "money", "shade", "student", "track"])
def test_bills_bids_and_scores_need_no_arrays(module: str) -> None:
    told = subprocess.run(
        [
            sys.executable,
            "-c",
            f"import sys, appraise.pricing.{module}; print('numpy' in sys.modules)",
        ],
        capture_output=True,
        text=True,
        check=True,
    )
    assert told.stdout.strip() == "False"
