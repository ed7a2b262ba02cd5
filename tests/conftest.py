"""What holds for all tests: no example of a property is timed, and what ships is read once."""

import os

import shipped
from hypothesis import HealthCheck, settings

from appraise.cli import demo
from appraise.knowledge import loader, ready

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # as `appraise` itself sets it
loader.load, ready.ready, demo.furnish = shipped.load, shipped.ready, shipped.furnish

settings.register_profile("untimed", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("untimed")
