"""Threads for the app's jobs that do not hold the way out."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from threading import Thread
from typing import ParamSpec, TypeVar

Given = ParamSpec("Given")
Result = TypeVar("Result")


class LooseThreads(ThreadPoolExecutor):
    """A thread for each job; nobody waits for one when the app is left.

    The pool of the standard library joins its threads at the end of the program, however long they
    compute. Here a job that only computes is dropped; one that writes is waited for by the session.
    """

    def submit(
        self, fn: Callable[Given, Result], /, *args: Given.args, **kwargs: Given.kwargs
    ) -> Future[Result]:
        future: Future[Result] = Future()

        def run() -> None:
            try:
                result = fn(*args, **kwargs)
            except BaseException as error:  # whatever it is, the one who waits is told
                future.set_exception(error)
            else:
                future.set_result(result)

        if future.set_running_or_notify_cancel():
            Thread(target=run, daemon=True).start()
        return future

    def shutdown(self, wait: bool = True, *, cancel_futures: bool = False) -> None:
        """Take no time: what still computes is of no use to anybody."""
