/* "Change one number": a list of quantities and one slider that writes into the chosen one's box. */
"use strict";

/**
 * @typedef {{symbol: string, label: string, low: number, high: number, step: number, value: number, unit: string,
 *            low_text: string, high_text: string, text: string}} Slider
 */

/** Change one number: a list of quantities and one slider. */
class Change {
  /** @param {HTMLElement} part @param {(symbol: string, text: string) => void} onMove */
  constructor(part, onMove) {
    this.list = /** @type {HTMLSelectElement} */ (part.querySelector("select"));
    this.range = /** @type {HTMLInputElement} */ (part.querySelector("input"));
    this.label = /** @type {HTMLElement} */ (part.querySelector(".vh"));
    const [low, now, high] = /** @type {HTMLElement[]} */ ([...part.querySelectorAll(".ends > *")]);
    this.low = low;
    this.now = now;
    this.high = high;
    /** @type {Slider[]} */
    this.sliders = [];
    /** The quantity that stays chosen while its box holds nothing that can slide. */
    this.chosen = "";
    this.list.addEventListener("change", () => {
      this.chosen = this.list.value;
      this.show(this.sliders, true);
    });
    this.range.addEventListener("input", () => {
      this.chosen = this.list.value;
      const unit = this.sliders.find((it) => it.symbol === this.list.value)?.unit ?? "";
      this.say(`${this.range.value} ${unit}`.replace(" °", "°").trim());
      onMove(this.list.value, this.range.value);
    });
  }

  /** @param {string} words */
  say(words) {
    renewText(this.now, words);
    this.range.setAttribute("aria-valuetext", words);
  }

  /** @param {Slider[]} sliders @param {boolean} [chosen]  the reader has just chosen another quantity */
  show(sliders, chosen = false) {
    this.sliders = sliders;
    const symbols = sliders.map((it) => it.symbol).join();
    if (symbols !== [...this.list.options].map((it) => it.value).join()) {
      this.chosen ||= this.list.value;
      this.list.replaceChildren(...sliders.map((it) => new Option(it.label, it.symbol)));
      if (sliders.some((it) => it.symbol === this.chosen)) this.list.value = this.chosen;
    }
    const slider = sliders.find((it) => it.symbol === this.list.value) ?? sliders[0];
    if (!slider) return;
    renewText(this.label, slider.label);
    renewText(this.low, slider.low_text);
    renewText(this.high, slider.high_text);
    if (document.activeElement === this.range && !chosen) return; // never pull the handle from under a hand
    Object.assign(this.range, { min: slider.low, max: slider.high, step: slider.step });
    this.range.value = String(slider.value);
    this.say(slider.text);
  }
}
