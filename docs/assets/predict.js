/*
 * Predicting first: a result is held back until the reader commits to a number of their own, with Enter or by leaving the
 * box. Then the sheet says how far off it was. A link can ask for it too. calc compares; nothing is computed here.
 */
"use strict";

/** What waits for the reader's own number, and what that number was. */
class Prediction {
  /** @param {HTMLElement} form */
  constructor(form) {
    this.button = /** @type {HTMLButtonElement | null} */ (form.querySelector("[data-act=predict]"));
    this.line = /** @type {HTMLElement} */ (form.querySelector(".prediction"));
    /** @type {string[]} the results that a link or the button holds back */
    this.hide = [];
    /** @type {Record<string, {text: string, units: string}>} */
    this.made = {};
    this.revealed = false;
  }

  /** What the button holds back: the effort. */
  get symbol() {
    return this.button?.dataset.symbol ?? "";
  }

  /** Whether a box's text is a prediction in the making, no given number. @param {string} symbol */
  waitsFor(symbol) {
    return !this.revealed && this.hide.includes(symbol);
  }

  /** @param {string[]} hide */
  begin(hide) {
    this.hide = hide;
    this.made = {};
    this.revealed = false;
    this.show("");
  }

  /** The reader commits. @param {Box} box @param {Units} units */
  commit(box, units) {
    this.made = { ...this.made, [box.symbol]: { text: box.input.value, units } };
  }

  /** Something else changed: what was predicted was predicted for other numbers. */
  outlived() {
    if (this.revealed) this.made = {};
  }

  /** What a question says of it. */
  get asked() {
    return { hide: this.revealed ? [] : this.hide, predicted: this.made };
  }

  /** @param {string} html  how far off, from calc */
  show(html) {
    this.line.hidden = !html;
    renew(this.line, html);
    this.button?.setAttribute("aria-pressed", String(this.hide.length > 0 && !this.revealed));
  }
}
