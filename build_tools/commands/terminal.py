"""`calc`: the answers of a page, in the terminal."""

import json
import sys
from collections.abc import Iterable, Mapping, Sequence
from html.parser import HTMLParser
from typing import Any

import calc


def run(key: str, given: Sequence[tuple[str, str]], find: str | None, units: str, as_json: bool) -> int:
    """Prints the answer; returns 1 if anything in it is an error, else 0."""
    known = calc.keys()
    if key not in known:
        return _say([_error(f"There is no calculator {key!r}. There are: {', '.join(known)}.")], as_json)
    form = calc.describe(key)
    slips = [_error(text, symbol) for symbol, text in _slips(form, given)]
    if slips:
        return _say(slips, as_json)
    answer = calc.answer(request(form, given, units))
    if find is not None and find not in answer["values"] and not answer["errors"]:
        answer["errors"].append(_error(f"{find} cannot be found from what is given.", find))
    if as_json:
        print(json.dumps(as_data(answer, find), ensure_ascii=False))
    else:
        sys.stdout.writelines(line + "\n" for line in as_lines(form, answer, find))
        _print_errors(answer["errors"])
    return 1 if answer["errors"] else 0


def request(form: Mapping[str, Any], given: Iterable[tuple[str, str]], units: str) -> dict[str, Any]:
    """What to ask `calc.answer`: choices told apart from quantities by the form's own list."""
    choices = {choice["symbol"] for choice in form["choices"]}
    pairs = list(given)
    return {
        "calculator": form["key"],
        "given": {symbol: text for symbol, text in pairs if symbol not in choices},
        "choices": {symbol: text for symbol, text in pairs if symbol in choices},
        "units": units,
        "edited": pairs[-1][0] if pairs else None,
        "draw": None,
    }


def as_data(answer: Mapping[str, Any], find: str | None) -> dict[str, Any]:
    """The part of an answer that `--json` prints; with `find`, that value only."""
    values = {
        symbol: {"si": value["si"], "text": value["text"]}
        for symbol, value in answer["values"].items()
        if find in (None, symbol)
    }
    return {"values": values, "errors": answer["errors"], "cautions": answer["cautions"]}


def as_lines(form: Mapping[str, Any], answer: Mapping[str, Any], find: str | None) -> list[str]:
    """An answer for reading: the values, the working, the cautions; with `find`, that value only."""
    values = answer["values"]
    if find is not None:
        return [f"{find} = {values[find]['text']}"] if find in values else []
    labels = form["labels"]
    sentence = "".join(_Words(answer["html"]["sentence"]).words).strip()
    rows = [
        (
            f"{symbol} = {value['text']}",
            " ".join(filter(None, [labels.get(symbol, ""), _mark(answer["fields"].get(symbol))])),
        )
        for symbol, value in values.items()
    ]
    width = max((len(shown) for shown, _ in rows), default=0)
    lines = [
        form["title"],
        *([sentence] if sentence else []),
        "",
        *(f"  {shown:{width}}  {label}".rstrip() for shown, label in rows),
    ]
    if answer["working"]:
        lines += ["", "Working"]
        for number, step in enumerate(answer["working"], start=1):
            lines += [f"  {number}. {step['words']}", f"     {step['text']}"]
    if answer["cautions"]:
        lines += ["", *(f"Caution: {caution}" for caution in answer["cautions"])]
    return lines


class _Words(HTMLParser):
    """Keeps the words of some markup, without the tags."""

    def __init__(self, markup: str) -> None:
        super().__init__()
        self.words: list[str] = []
        self.feed(markup)
        self.close()

    def handle_data(self, data: str) -> None:
        """Keeps a piece of text."""
        self.words.append(data)


def _mark(field: Mapping[str, Any] | None) -> str:
    return f"({field['mark']})" if field and field["mark"] else ""


def _slips(form: Mapping[str, Any], given: Iterable[tuple[str, str]]) -> Iterable[tuple[str, str]]:
    """Symbols that the form does not have, or that were given twice."""
    names = [part["symbol"] for part in (*form["choices"], *form["quantities"])]
    columns = [quantity["symbol"] for row in form["rows"] for quantity in row["quantities"]]
    seen = set()
    for symbol, _ in given:
        stem, _, number = symbol.rpartition("_")
        if symbol not in names and not (stem in columns and number.isdecimal()):
            known = ", ".join([*names, *(f"{column}_1" for column in columns)])
            yield symbol, f"This calculator has no {symbol}. It has: {known}."
        elif symbol in seen:
            yield symbol, f"{symbol} is given twice."
        seen.add(symbol)


def _error(text: str, symbol: str | None = None) -> dict[str, Any]:
    return {"symbol": symbol, "code": "e-command", "text": text}


def _say(errors: list[dict[str, Any]], as_json: bool) -> int:
    if as_json:
        print(json.dumps({"values": {}, "errors": errors, "cautions": []}, ensure_ascii=False))
    else:
        _print_errors(errors)
    return 1


def _print_errors(errors: Iterable[Mapping[str, Any]]) -> None:
    for error in errors:
        text = error["text"] if error["symbol"] is None else f"{error['symbol']}: {error['text']}"
        print(text, file=sys.stderr)
