"""How the season page stands up to 10,000 tasks: made in the night, opened and filtered in a browser.

Prints what the night spends (making the page anew, putting a new day into one that stands), and, where the machine has
a browser (or `SOILROTA_BROWSER` names one), first paint, script, filter, order and words, each the median of five
rounds, at 1,000 and at 10,000 tasks. Run it from the top of the checkout:
`sh .ci/with python tests/benchmarks/bench_season_page.py`.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter

ROOT = Path(__file__).resolve().parents[2]
ROUNDS = 5
_FIELDS = (
    ("filter by state", "by-state", "overdue", "change"),
    ("filter by person", "by-person", "Ben Carr", "change"),
    ("find words", "by-words", "ridge carr", "input"),
)
#: Milliseconds from a change of a field until the rows are drawn; words wait 120 ms for the next letter first.
_CHANGE = """new Promise((done) => {{ const f = document.getElementById('{id}'), t = performance.now();
f.value = {value!r}; f.dispatchEvent(new Event('{event}'));
setTimeout(() => requestAnimationFrame(() => setTimeout(() => done(performance.now() - t), 0)), {wait}); }})"""


def timed(work: Callable[[], object]) -> float:
    """Return the median time of some work [ms]."""
    times = []
    for _ in range(ROUNDS):
        began = perf_counter()
        work()
        times.append(perf_counter() - began)
    return 1000 * median(times)


def in_the_night(count: int, folder: Path) -> Path:
    """Print what the night spends on a page; return it."""
    from soilrota.batch.redating import redated
    from soilrota.documents import render_season_page
    from tests.documents.seasons import DAY, a_season

    view = a_season(count)
    page = render_season_page(view, DAY)
    print(
        f"{count:>6} tasks: {len(page) / 1e6:.2f} MB; made in {timed(lambda: render_season_page(view, DAY)):.0f} ms, "
        f"a new day put in in {timed(lambda: redated(page, DAY)):.1f} ms"
    )
    file = folder / f"season-{count}.html"
    file.write_bytes(page)
    return file


def in_a_browser(browser: str, files: dict[int, Path]) -> None:
    """Print what a reader waits for, rounds of the two sizes in turn."""
    from tests.browser.driving import a_page

    found: dict[tuple[int, str], list[float]] = {}
    with a_page(browser) as page:
        page.size(1280)
        for _ in range(ROUNDS):
            for count, file in files.items():
                page.open(file.as_uri())
                page.ask("new Promise((done) => setTimeout(done, 300))")
                paint = page.ask("performance.getEntriesByName('first-contentful-paint')[0].startTime")
                whole = page.ask("performance.getEntriesByType('navigation')[0].domComplete")
                found.setdefault((count, "first paint"), []).append(paint)
                found.setdefault((count, "ready for use"), []).append(whole)
                for name, field, value, event in _FIELDS:
                    wait = 121 if event == "input" else 0
                    took = page.ask(_CHANGE.format(id=field, value=value, event=event, wait=wait)) - wait
                    found.setdefault((count, name), []).append(took)
                    page.ask(_CHANGE.format(id=field, value="", event="change" if not wait else "input", wait=wait))
                for name, column in (("order by day", "day"), ("order by zone", "zone")):
                    head = f"document.querySelector('th[data-sort={column}] button')"
                    script = (
                        f"(() => {{ const t = performance.now(); {head}.click(); document.body.offsetHeight;"
                        " return performance.now() - t; })()"
                    )
                    found.setdefault((count, name), []).append(page.ask(script))
                assert not page.errors, page.errors
    for (count, name), times in sorted(found.items()):
        print(f"{count:>6} tasks: {name:<17} {median(times):7.1f} ms (worst {max(times):.1f})")


def main() -> None:
    """Run it."""
    sys.path[:0] = [str(ROOT), str(ROOT / "engine")]
    from tests.browser.driving import browser_path

    with TemporaryDirectory() as folder:
        files = {count: in_the_night(count, Path(folder)) for count in (1_000, 10_000)}
        browser = browser_path()
        if browser is None:
            print("no browser on this machine: what a reader waits for was not measured")
        else:
            in_a_browser(browser, files)


if __name__ == "__main__":
    main()
