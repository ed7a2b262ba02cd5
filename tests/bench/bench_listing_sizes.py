"""Which part a size is of, in texts of catalogues: measured on a file of records.

    python tests/bench/bench_listing_sizes.py RECORDS.jsonl [--errors]

One JSON object a line: id, kind, listing_text and dims_mm, the sides in mm of each part that the
holder names. The file is not part of the repository; a sample with holders, numbers and licences
stands in tests/external/measured_parts.yaml.
"""

import argparse
import json
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent))
sys.path.insert(0, str(Path(__file__).parent.parent.parent))

from external.partkit import scored

from appraise.knowledge import load


def main() -> None:
    """Print the score of every part."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("records", type=Path)
    parser.add_argument("--errors", action="store_true", help="every text that was read wrong")
    args = parser.parse_args()
    lines = args.records.read_text(encoding="utf-8").splitlines()
    found = scored((json.loads(line) for line in lines), load())
    if args.errors:
        print("\n".join([*found.errors, *(f"flagged {one}" for one in found.flagged)]))
    print(found.table())


if __name__ == "__main__":
    main()
