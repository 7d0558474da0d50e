"""Firefox and WebKit are found only whole."""

from build_tools import other_browsers


def test_a_firefox_that_only_pretends_is_passed_over(program, tmp_path):
    program(tmp_path / "firefox-esr", "echo 'needs another package' >&2; exit 1")
    right = program(tmp_path / "firefox", "echo Firefox 1.2.3")
    assert other_browsers.find_firefox({"PATH": str(tmp_path)}) == str(right)


def test_a_driver_without_a_screen_is_no_webkit(program, tmp_path):
    program(tmp_path / "WebKitWebDriver", "exit 0")
    assert other_browsers.find_webkit({"PATH": str(tmp_path)}) is None
