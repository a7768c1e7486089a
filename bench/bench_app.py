"""The phone app in Chromium, by the wall clock: its size, its start without a server, its answers.

Python's side of a ratio answers the same question on the same machine in the same run.
"""

import json
import os
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from bench.example_trees import EXAMPLES, TREE
from bench.timing import Measured, Size, Timing
from fellwright.api.text_door import answer_text
from fellwright.errors import BadInput
from fellwright.exchange.toml_file import read_toml
from fellwright.server import app_folder

WEB = Path(__file__).resolve().parents[1] / "web"
QUESTION = "sheet"
MOVING_DRAWS = 128
"""Draws while a slider moves, as in web/src/tip/Sliders.svelte."""
BEST_PACKING = 11
QUICK_PACKING = 5
MOST_BYTES = 6_000_000
SERVE = "from fellwright.cli.main import main; main()"
ANSWER = (
    "import sys; from fellwright.api.text_door import answer_text; "
    f"sys.stdout.write(answer_text({QUESTION!r}, sys.stdin.read()))"
)


def missing() -> str:
    """Why the app cannot be measured here; empty where it can."""
    try:
        app_folder()
    except BadInput:
        return "the app is not built: make app"
    node = shutil.which("node")
    if node is None:
        return "there is no Node.js"
    finding = subprocess.run(
        [node, "tests/browser/chromium.mjs"], cwd=WEB, capture_output=True, check=False
    )
    return (
        "" if finding.returncode == 0 else "there is no Chromium: sh web/tests/browser/install.sh"
    )


def asked(hinge_mm: float, **changes: object) -> str:
    """The demo's bare verdict with another hinge, as the app asks for it."""
    tree = read_toml(EXAMPLES / f"{TREE}.toml")
    tree["cut"] = {**tree["cut"], "hinge_mm": hinge_mm}
    kit = read_toml(EXAMPLES / "van-2.toml")
    return json.dumps({"tree": tree, "kit": kit, "bare": True, **changes})


def in_browser(request: str, steps: list[str], repeats: int, quality: int) -> dict[str, Any]:
    """What `web/tests/bench/app_bench.mjs` tells."""
    given = {
        "app": str(app_folder()),
        "serve": [sys.executable, "-c", SERVE, "serve", "--port", "0"],
        "question": QUESTION,
        "request": request,
        "steps": steps,
        "repeats": repeats,
        "quality": quality,
    }
    run = subprocess.run(
        ["node", "tests/bench/app_bench.mjs"],
        cwd=WEB,
        input=json.dumps(given),
        stdout=subprocess.PIPE,
        text=True,
        check=True,
    )
    told: dict[str, Any] = json.loads(run.stdout)
    return told


def shortest_s(call: Callable[[int], object], repeats: int) -> float:
    """Shortest of several runs by the wall clock; each run is told its number."""
    best = float("inf")
    for turn in range(repeats):
        begin = time.perf_counter()
        call(turn)
        best = min(best, time.perf_counter() - begin)
    return best


def new_process_s(request: str, repeats: int) -> float:
    """From starting Python to the answer, with modules compiled before."""
    with tempfile.TemporaryDirectory() as compiled:
        settings = {"PYTHONPYCACHEPREFIX": compiled, "PYTHONDONTWRITEBYTECODE": ""}

        def start(_turn: int) -> None:
            subprocess.run(
                [sys.executable, "-c", ANSWER],
                input=request,
                stdout=subprocess.PIPE,
                text=True,
                check=True,
                env={**os.environ, **settings},
            )

        start(0)
        return shortest_s(start, repeats)


def answers_s(requests: list[str]) -> float:
    """Shortest answer in this process; no two ask the same, or the second would be looked up."""
    answer_text(QUESTION, asked(30.0))
    return shortest_s(lambda turn: answer_text(QUESTION, requests[turn]), len(requests))


def run(small: bool) -> list[Measured]:
    """Measure, after holding the browser's answer against this process."""
    reason = missing()
    if reason:
        print(f"phone app not measured: {reason}")
        return []
    repeats, quality = (1, QUICK_PACKING) if small else (9, BEST_PACKING)
    hinges = [47.0 + 0.5 * step for step in range(2 if small else 12)]
    request, steps = asked(46.0), [asked(hinge) for hinge in hinges]
    told = in_browser(request, steps, repeats, quality)
    for one in told["main"] + told["slow"]:
        assert json.loads(one["text"]) == json.loads(answer_text(QUESTION, request))
    assert quality < BEST_PACKING or told["bytes"] <= MOST_BYTES, f"{told['bytes']:,} bytes"
    print(
        f"Chromium {told['browser']}, load {told['load']:.1f}, shortest of {repeats} by wall clock"
    )
    started = "CPython, new process", new_process_s(request, repeats)
    warm = "CPython", answers_s(steps)
    moving = "CPython", answers_s([asked(hinge, draws=MOVING_DRAWS) for hinge in hinges])

    def timing(name: str, times_ms: list[float], against: tuple[str, float]) -> Timing:
        return Timing(name, min(times_ms) / 1000.0, *against)

    def whole(key: str) -> list[float]:
        return [one["whole_ms"] for one in told[key]]

    return [
        Size(f"app, every file by brotli {quality}", told["bytes"]),
        timing("app without server, page to verdict on screen", told["start_ms"], started),
        timing("the same, first page of a new browser", told["first_ms"], started),
        timing("engine on main thread, start to bare verdict", whole("main"), started),
        timing("the same, processor slowed 4 times", whole("slow"), started),
        timing("bare verdict in the worker, 1,024 draws", told["answer_ms"], warm),
        timing("slider step on screen, 128 draws", told["slider_ms"], moving),
    ]
