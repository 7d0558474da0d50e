"""A Chromium is found wherever it is, unless it does not answer."""

from build_tools import chromium


def test_one_that_only_pretends_is_passed_over(program, tmp_path):
    program(tmp_path / "chromium-browser", "echo 'needs another package' >&2; exit 1")
    right = program(tmp_path / "google-chrome", "echo Chromium 1.2.3")
    assert chromium.find({"PATH": str(tmp_path)}) == str(right)


def test_playwright_s_own_is_found(program, tmp_path):
    right = program(tmp_path / "chromium-1234" / "chrome-linux64" / "chrome", "echo Chromium 1.2.3")
    assert chromium.find({"PATH": "", "PLAYWRIGHT_BROWSERS_PATH": str(tmp_path)}) == str(right)


def test_none_is_none(tmp_path):
    assert chromium.find({"PATH": str(tmp_path)}) is None
