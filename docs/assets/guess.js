/*
 * Predicting first on a record sheet: results wait until the student has said what the scale will read, or would rather
 * not. What was predicted belongs to the sheet and is kept with it. calc compares; nothing is computed here.
 */
"use strict";

/** @typedef {{on: boolean, made: {text: string, unit: string} | null, declined: boolean}} Guessed */

class Guess {
  /** @param {HTMLFormElement} form */
  constructor(form) {
    this.form = form;
    this.tick = /** @type {HTMLInputElement} */ (form.querySelector("[name=predict]"));
    this.box = /** @type {HTMLInputElement} */ (form.querySelector("[name=prediction]"));
    this.asking = /** @type {HTMLElement} */ (form.querySelector(".r-ask"));
    this.line = /** @type {HTMLElement} */ (form.querySelector(".prediction"));
    this.begin(false);
  }

  /** @param {EventTarget | null} target */
  holds(target) {
    return target === this.tick || target === this.box;
  }

  get on() {
    return this.state.on;
  }

  /** Whether the results are held back. */
  get waits() {
    return this.on && !this.state.declined && (!this.state.made || this.unread);
  }

  /** @param {boolean} on */
  begin(on) {
    this.set({ on, made: null, declined: false });
  }

  /** @param {string} unit what the scale shows @returns {boolean} whether there is anything to commit to */
  commit(unit) {
    const text = this.box.value.trim();
    if (text) this.set({ ...this.state, made: { text, unit } });
    else this.box.focus();
    return text !== "";
  }

  decline() {
    this.set({ ...this.state, made: null, declined: true });
  }

  /** @param {Guessed | undefined} state of a sheet that was kept, opened or taken back */
  fill(state) {
    this.set({ on: state?.on === true, made: state?.made ?? null, declined: state?.declined === true });
  }

  /** @param {Guessed} state */
  set(state) {
    const same = JSON.stringify(state) === JSON.stringify(this.state);
    /** @type {Guessed} */
    this.state = state;
    if (same) return;
    this.unread = false;
    this.box.value = state.made?.text ?? "";
    this.line.hidden = true;
    this.showWaiting();
  }

  showWaiting() {
    this.tick.checked = this.on;
    this.asking.hidden = !this.waits;
    this.form.classList.toggle("is-held", this.waits);
  }

  /** @param {any} answer */
  show(answer) {
    this.unread = answer.waiting === true && this.state.made !== null;
    this.showWaiting();
    this.line.hidden = !answer.html.prediction;
    renew(this.line, answer.html.prediction ?? "");
  }
}
