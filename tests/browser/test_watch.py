"""The watch over a page is not blind: each thing it forbids turns a test red."""

from __future__ import annotations

import pytest

from browser.watch import LAPTOP, opened


def test_a_quiet_page_passes(laptop):
    answer = laptop.goto("/")
    assert answer.status == 200
    assert laptop.title().endswith("Pourwright")


def test_a_refusal_shown_as_a_page_is_no_fault(phone):
    assert phone.goto("/no-such-page").status == 404


@pytest.mark.parametrize(
    ("script", "wrong"),
    [
        ("console.error('planted')", "console: planted"),
        ("setTimeout(() => { throw new Error('planted') })", "script failed: planted"),
        ("document.createElement('img').src = '/static/planted.png'", "answered 404"),
        (
            "document.createElement('img').src = 'http://localhost:9/x'",
            "asked another host|console",
        ),
    ],
)
def test_a_fault_is_caught(browser, bench_server, script, wrong):
    with pytest.raises(pytest.fail.Exception, match=wrong):
        visit(browser, bench_server, "/", script)


def test_a_page_of_elsewhere_is_caught(browser, bench_server):
    elsewhere = bench_server.replace("127.0.0.1", "localhost")
    with pytest.raises(pytest.fail.Exception, match="asked another host"):
        visit(browser, bench_server, f"{elsewhere}/", "0")


def visit(browser, address, page_address, script):
    with opened(browser, address, LAPTOP) as page:
        page.goto(page_address)
        page.evaluate(script)
        page.wait_for_timeout(300)
