"""The records of five invented pilots in a browser: one page, nothing small, nothing sideways, nothing that axe finds.

`python -m tests.bench.records FOLDER` looks at them at every width, light and dark, and at one with 50,000 reviews.
"""

import pytest

from tests.pages import browser, pilots

LEAST_PT = 9.0


@pytest.fixture(scope="module", params=pilots.PILOTS)
def page(request, tmp_path_factory):
    """Return the page of one pilot after a week."""
    browser.chromium()
    home = tmp_path_factory.mktemp(request.param) / "home"
    return pilots.reported(home, pilots.PILOTS[request.param](home, 1), request.param)[1][f"{request.param}.html"]


def test_the_record_is_one_page_of_readable_type(page, tmp_path):
    assert browser.sheets(page, tmp_path, paper="Letter", only=".record") == 1
    found = browser.measured(page, tmp_path, width=740, print_styles=True)  # Letter less its margins
    assert found["smallest"][0] * browser.PT_PER_PX >= LEAST_PT - 0.05, found


def test_on_a_phone_nothing_scrolls_sideways(page, tmp_path):
    found = browser.measured(page, tmp_path, width=375)
    assert found["room"] == 375 and found["wide"] <= 375, found


def test_axe_finds_nothing(page, tmp_path):
    browser.axe()
    assert browser.violations(page, tmp_path, width=375) == []
    assert browser.violations(page, tmp_path, width=1280, dark=True) == []


def test_axe_would_find_an_empty_link_and_pale_words(tmp_path):
    browser.axe(), browser.chromium()
    pale = (
        '<!doctype html><html lang="en"><head><title>t</title></head><body><main><h1>t</h1><p style="color:#ccc">pale'
    )
    found = browser.violations(f'{pale}</p><a href="x"></a></main></body></html>', tmp_path, width=500)
    assert {one.partition(":")[0] for one in found} == {"color-contrast", "link-name"}
