"""helper.html in a real browser: ticks stay, nothing is fetched, it fits a phone, and it can be read by everyone."""

from __future__ import annotations

import dataclasses
import os
import re
import shutil
from collections.abc import Iterator
from html.parser import HTMLParser
from importlib.util import find_spec
from pathlib import Path
from typing import Any

import pytest

from packet.files.helper_html import write_helper_html
from tests.shop import finish_job, load_job, make_project

CHROMIUM = next(
    (found for name in ("chromium", "chromium-browser", "google-chrome") if (found := shutil.which(name))), None
)
DRIVER = shutil.which("chromedriver")
HOSTILE = "</title><script>alert(1)</script><b>&\"'{{ 7*7 }}"
PHONE = {"width": 360, "height": 740, "deviceScaleFactor": 2, "mobile": True}


def test_browser_is_there_in_ci() -> None:
    if CHROMIUM and DRIVER and find_spec("selenium"):
        return
    if os.environ.get("CI") == "true":
        pytest.fail("the browser tests need chromium, chromedriver and selenium: .ci/run installs them")
    pytest.skip("helper.html is not driven: no chromium, chromedriver or selenium here")


def test_page_names_nothing_outside_itself() -> None:
    page = write_helper_html(load_job("boatshed"))
    assert not re.search(r"https?:|//[a-z]|@import|url\(|<link(?![^>]*data:,)|src=", page)
    assert len(page) < 150_000
    assert "{{" not in page
    assert "{%" not in page


def test_spanish_page_says_so_and_speaks_it() -> None:
    project = make_project()
    display = dataclasses.replace(project.display, language="spanish")
    page = write_helper_html(finish_job(dataclasses.replace(project, display=display)))
    assert '<html lang="es">' in page
    for word in ("Hoja del ayudante", "Pare y dígalo cuando", "ADVERTENCIA", "Borrar marcas"):
        assert word in page
    assert "WARNING" not in page
    assert "Stop and say" not in page


class Outline(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.ids: list[str] = []
        self.words = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.ids += [value or "" for key, value in attrs if key == "id"]

    def handle_data(self, data: str) -> None:
        self.words += data


def test_hostile_words_stay_words() -> None:
    project = make_project()
    project = dataclasses.replace(
        project,
        title=dataclasses.replace(project.title, title=HOSTILE, drawn_by=HOSTILE, revision=HOSTILE),
        machines=tuple(dataclasses.replace(each, name=f"{each.name} {HOSTILE}") for each in project.machines),
        methods=dataclasses.replace(project.methods, helper=True),
    )
    page = write_helper_html(finish_job(project))
    plain, hostile = Outline(), Outline()
    plain.feed(write_helper_html(finish_job(dataclasses.replace(make_project(), methods=project.methods))))
    hostile.feed(page)
    assert hostile.tags == plain.tags
    assert len(set(hostile.ids)) == len(hostile.ids)
    assert HOSTILE in hostile.words
    assert "49" not in hostile.words.split("Step numbers")[0]


# --- in the browser ---------------------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def browser(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Any]:
    if not (CHROMIUM and DRIVER and find_spec("selenium")):
        pytest.skip("helper.html is not driven: no chromium, chromedriver or selenium here")
    from selenium import webdriver
    from selenium.webdriver.chrome.options import Options
    from selenium.webdriver.chrome.service import Service

    options = Options()
    options.binary_location = CHROMIUM
    options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
    profile = tmp_path_factory.mktemp("profile")
    for word in (
        "--headless=new",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-dev-shm-usage",
        f"--user-data-dir={profile}",
    ):
        options.add_argument(word)
    driver = webdriver.Chrome(options=options, service=Service(DRIVER))
    try:
        driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", PHONE)
        yield driver
    finally:
        driver.quit()


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> str:
    file: Path = tmp_path_factory.mktemp("sheet") / "helper.html"
    file.write_text(write_helper_html(load_job("boatshed")), encoding="utf-8")
    return file.as_uri()


def tick(browser: Any, number: int) -> None:
    label = browser.find_elements("css selector", ".ticks label")[number]
    browser.execute_script("arguments[0].scrollIntoView({block: 'center'})", label)
    label.click()


def list_ticked(browser: Any) -> list[str]:
    return browser.execute_script(
        "return Array.from(document.querySelectorAll('input:checked')).map(function (box) { return box.name; })"
    )


def test_ticks_survive_a_reload_and_clear(browser: Any, address: str) -> None:
    browser.get(address)
    assert list_ticked(browser) == []
    tick(browser, 0)
    tick(browser, 5)
    ticked = list_ticked(browser)
    assert len(ticked) == 2
    browser.get("about:blank")
    browser.get(address)
    assert list_ticked(browser) == ticked
    assert browser.find_element("id", "count").text.startswith("2 / ")
    tick(browser, 5)
    browser.refresh()
    assert list_ticked(browser) == ticked[:1]
    browser.find_element("id", "clear").click()
    browser.refresh()
    assert list_ticked(browser) == []


def test_no_request_leaves_the_file_and_nothing_is_logged(browser: Any, address: str) -> None:
    import json

    browser.get_log("performance")
    browser.get_log("browser")
    browser.get(address)
    tick(browser, 1)
    sent = [json.loads(entry["message"])["message"] for entry in browser.get_log("performance")]
    urls = [each["params"]["request"]["url"] for each in sent if each["method"] == "Network.requestWillBeSent"]
    assert urls
    assert {url for url in urls if not url.startswith("data:")} == {address}
    assert browser.get_log("browser") == []
    browser.find_element("id", "clear").click()


def test_page_fits_a_narrow_phone_with_big_targets(browser: Any, address: str) -> None:
    """WCAG 2.2, success criterion 2.5.5 (AAA): targets of at least 44 by 44 CSS pixels (from memory)."""
    browser.get(address)
    wide, seen = browser.execute_script("return [document.documentElement.scrollWidth, window.innerWidth]")
    assert seen == 360
    assert wide <= 360
    sizes = browser.execute_script(
        "return Array.from(document.querySelectorAll('.ticks label, button')).map(function (each) {"
        " var box = each.getBoundingClientRect(); return [box.width, box.height]; })"
    )
    assert len(sizes) > 20
    assert all(width >= 44 and height >= 44 for width, height in sizes)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_page_passes_the_accessibility_check(browser: Any, address: str, scheme: str) -> None:
    """axe-core's rules for WCAG 2 A and AA (names, labels, contrast, landmarks), from a pip package that carries it."""
    spec = find_spec("axe_selenium_python")
    if spec is None or spec.origin is None:
        pytest.skip("no axe_selenium_python here")
    script = Path(spec.origin).parent / "node_modules" / "axe-core" / "axe.min.js"
    browser.execute_cdp_cmd(
        "Emulation.setEmulatedMedia", {"features": [{"name": "prefers-color-scheme", "value": scheme}]}
    )
    browser.get(address)
    ground = browser.execute_script("return getComputedStyle(document.body).backgroundColor")
    assert ground == {"light": "rgb(251, 250, 247)", "dark": "rgb(20, 22, 26)"}[scheme]
    browser.execute_script(script.read_text(encoding="utf-8"))
    found = browser.execute_async_script(
        "var done = arguments[arguments.length - 1];"
        "axe.run(document).then(function (r) { done({bad: r.violations.map(function (v) { return v.id + ': ' + v.help +"
        " ' ' + v.nodes[0].html; }), passed: r.passes.map(function (p) { return p.id; })}); });"
    )
    assert found["bad"] == []
    assert {"color-contrast", "label", "html-has-lang", "document-title"} <= set(found["passed"])


def test_page_prints_without_its_buttons(browser: Any, address: str) -> None:
    browser.get(address)
    browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": "print"})
    assert browser.execute_script("return getComputedStyle(document.querySelector('.bar')).display") == "none"
    browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": ""})
