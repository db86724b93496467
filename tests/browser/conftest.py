"""The browser that pages are opened in."""

import shutil
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, sync_playwright

CHROMIUM = next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome", "chrome"))), None)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    assert CHROMIUM, "install Chromium, such as by: apt-get install chromium"
    with sync_playwright() as driver:
        started = driver.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        yield started
        started.close()
