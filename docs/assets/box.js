/*
 * One box of a sheet: what the reader typed in it, and the words around it. The reader's text goes into value and
 * textContent alone, so that nothing pasted can become part of the page.
 */
"use strict";

/**
 * @typedef {"us" | "si"} Units
 * @typedef {{text: string, units: Units, exact: string}} Typed
 *   as typed; the units beside the box at that time; the same with its unit written out, once calc has said so
 * @typedef {{code: string, start: string, words: string, fill: string | null}} Mend
 * @typedef {{state: string, text: string, shown: string, unit: string, mark: string, note: string, error: Mend | null,
 *            exact?: string, converted?: Record<Units, string>}} Field
 */

/** One quantity of the sheet: its box and the words around it. */
class Box {
  /** Units as they are read aloud: whole words, since "in" sounds like another word and "lbf" like none. */
  static #ALOUD = /** @type {Record<string, string>} */ ({
    lbf: "pounds-force", ozf: "ounces-force", kgf: "kilograms-force", N: "newtons", kN: "kilonewtons",
    in: "inches", ft: "feet", yd: "yards", mm: "millimetres", cm: "centimetres", m: "metres", s: "seconds",
    "ft·lbf": "foot pounds-force", "lbf·in": "pound-force inches", "in·lbf": "inch pounds-force", "lbf·ft": "pound-force feet",
    "N·m": "newton metres", J: "joules", "ft·lbf/s": "foot pounds-force per second", W: "watts", kW: "kilowatts", hp: "horsepower",
    "°": "degrees", rad: "radians", rpm: "turns per minute", TPI: "threads per inch", "%": "percent",
    psi: "pounds-force per square inch", MPa: "megapascals", "lbf/ft³": "pounds-force per cubic foot", "kN/m³": "kilonewtons per cubic metre",
  });

  static #NUMBER_KEYS = "05.21438679"; // round numbers first; common practice, no source

  /** @param {HTMLElement} row */
  constructor(row) {
    this.row = row;
    this.symbol = row.dataset.symbol ?? "";
    this.input = /** @type {HTMLInputElement} */ (row.querySelector("input"));
    this.value = /** @type {HTMLOutputElement} */ (row.querySelector("output"));
    this.unit = /** @type {HTMLElement} */ (row.querySelector(".q-unit"));
    this.mark = /** @type {HTMLElement} */ (row.querySelector(".q-mark"));
    this.note = /** @type {HTMLElement} */ (row.querySelector(".q-hint"));
    this.error = /** @type {HTMLElement} */ (row.querySelector(".q-error"));
    /** What the box says of itself while there is nothing better to say. */
    this.hint = this.note.dataset.hint ?? this.note.textContent ?? "";
    this.input.autocapitalize = "off";
    this.input.spellcheck = false;
    const after = /** @type {HTMLElement | null} */ (this.unit.nextElementSibling);
    this.aloud = after?.matches(".q-aloud") ? after : document.createElement("span");
    this.aloud.className = "q-aloud";
    this.aloud.hidden = true;
    this.unit.after(this.aloud);
    this.sayUnit();
    // The page is lighter without these names, and nobody needs them before it is alive.
    const parts = { value: this.value, unit: this.aloud, error: this.error, note: row.querySelector(".q-note") };
    for (const [name, part] of Object.entries(parts)) if (part) part.id = `${this.input.id}-${name}`;
    this.value.htmlFor.value = this.input.id;
    this.input.setAttribute("aria-describedby", Object.keys(parts).map((name) => `${this.input.id}-${name}`).join(" "));
    /** @type {Typed} what counts, at full precision, while the box may show it in other units */
    this.typed = { text: this.input.value, units: "us", exact: "" };
    this.lastGood = this.input.value;
    /** @type {Mend | null} */
    this.mend = null;
  }

  /** For a screen reader: what stands beside the box, in words. */
  sayUnit() {
    const unit = this.unit.textContent ?? "";
    renewText(this.aloud, Box.#ALOUD[unit] ?? unit);
  }

  get label() {
    return this.row.querySelector("label")?.textContent?.trim() ?? "";
  }

  /** Whether anything stands in it, typed or found. */
  get isInUse() {
    return Boolean(this.input.value.trim() || this.value.textContent);
  }

  /** @param {string} text @param {Units} units */
  type(text, units) {
    this.input.value = text;
    this.typed = { text, units, exact: "" };
  }

  /** What the next key would make of its text: the keys that a number is typed with, the likeliest first. */
  nextTexts() {
    const { value, readOnly } = this.input;
    const [from, to] = [this.input.selectionStart ?? value.length, this.input.selectionEnd ?? value.length];
    const [before, after] = [value.slice(0, from), value.slice(to)];
    const shorter = (from === to ? before.slice(0, -1) : before) + after;
    const [first, second, ...others] = /[a-z]$/i.test(before) ? [] : [...Box.#NUMBER_KEYS].map((key) => before + key + after);
    return readOnly ? [] : [first, second, shorter, ...others].filter((text) => text !== undefined && text !== value);
  }

  /** What to send for this box when the sheet is in `units`. @param {Units} units */
  given(units) {
    return this.typed.units === units ? this.typed.text : this.typed.exact || this.typed.text;
  }

  /** Shows what was typed in the units of the sheet. @param {Units} units @param {Field | undefined} field  answered in the units before */
  convert(units, field) {
    if (this.typed.units === units) this.input.value = this.typed.text;
    else if (field?.exact && field.converted) {
      this.typed.exact ||= field.exact;
      this.input.value = field.converted[units];
    }
  }

  /** @param {string} state */
  setState(state) {
    this.row.className = `q is-${state}`;
  }

  /** Given by the teacher, to be left as it is. @param {boolean} locked */
  lock(locked) {
    this.input.readOnly = locked;
  }

  /** Shows at once that the reader has typed, before any answer. */
  touched() {
    if (!this.row.classList.contains("is-error")) this.setState(this.input.value.trim() ? "typed" : "empty");
    renewText(this.value, "");
    renewText(this.mark, "");
  }

  /** @param {Field | undefined} field  undefined: a row that nothing has been typed in yet */
  show(field) {
    field ??= { state: "empty", text: "", shown: "", unit: "", mark: "", note: "", error: null };
    this.row.hidden = field.state === "unused";
    renewText(this.unit, field.unit);
    this.sayUnit();
    const stale = field.state === "waiting" && this.value.textContent !== "";
    if (field.state === "waiting") {
      this.setState(stale ? "stale" : "empty");
      renewText(this.mark, stale ? "out of date" : "");
    } else {
      renewText(this.value, field.shown);
      renewText(this.mark, this.input.readOnly && field.text ? "given" : field.mark);
      if (!field.error) this.setState(field.state);
    }
    renewText(this.note, field.note || this.hint);
    this.note.classList.toggle("is-default", !field.note);
    this.mend = field.error;
    if (!field.error) {
      this.hideError();
      if ([this.typed.text, this.typed.exact].includes(field.text)) this.lastGood = this.input.value; // not while an older text is answered
    }
  }

  hideError() {
    this.error.hidden = true;
    this.error.textContent = "";
    this.input.removeAttribute("aria-invalid");
  }

  /** @param {(text: string) => void} fill  what the button of a message does */
  showError(fill) {
    if (!this.mend) return;
    const { start, words, fill: text } = this.mend;
    const strong = document.createElement("strong");
    strong.textContent = start;
    this.error.replaceChildren(strong, ` ${words} `);
    if (text) {
      const button = document.createElement("button");
      button.type = "button";
      button.textContent = `Use ${text}`;
      button.addEventListener("click", () => fill(text));
      this.error.append(button);
    }
    this.error.hidden = false;
    this.input.setAttribute("aria-invalid", "true");
    this.setState("error");
  }
}
