/*
 * <calculator-sheet key="lever">: makes a worked sheet answer what the reader types.
 *
 * The sheet is complete without this file. Here it only reads boxes, asks the engine, and shows what comes back:
 * no number is computed and no unit converted in this file. Its parts stand beside it: box.js, change.js, figure.js.
 * innerHTML takes nothing but the fragments that calc makes.
 */
"use strict";

/**
 * @typedef {{units: Units, link: string, choices: Record<string, string>, fields: Record<string, Field>, sliders: Slider[],
 *            values: Record<string, {si: number, text: string}>,
 *            errors: {symbol: string | null, code: string, text: string}[], remarks: string[], html: Record<string, string>}} Answer
 */

(() => {
  const QUIET_MS = 800; // typing has stopped: announce once
  const ERROR_MS = 400; // a half-typed "5 ft 3-" is not an error yet
  const PAUSE_MS = 60; // between two keys: the next number must not wait behind a drawing
  const REST_MS = 1500; // the reader pauses: draw the width that is not on screen, for paper
  const GETTING_READY = "Getting the calculator ready…";
  const CANNOT_RUN = "The calculator cannot run here. Use the formula and the worked numbers below.";
  const EXAMPLE_ONLY = "The results below belong to the worked example.";
  const OTHER_VERSION = "This link was made by another version of this site. Check its numbers.";

  /** Session storage that may be forbidden, as on managed machines. */
  const memory = {
    /** @param {string} name @returns {any} */
    get(name) {
      try {
        return JSON.parse(sessionStorage.getItem(name) ?? "null");
      } catch {
        return null;
      }
    },
    /** @param {string} name @param {object} value */
    set(name, value) {
      try {
        sessionStorage.setItem(name, JSON.stringify(value));
      } catch {
        // The sheet works without it; only a reload starts over.
      }
    },
  };

  /** @returns {any} the engine, or undefined when its script is missing */
  const theEngine = () => /** @type {any} */ (window).engine;

  /** A live sheet: what was typed, what is asked, what is shown. */
  class Sheet {
    /** @param {HTMLElement} host @param {HTMLFormElement} form */
    constructor(host, form) {
      this.host = host;
      this.form = form;
      this.key = host.getAttribute("key") ?? "";
      this.place = `${location.pathname} ${this.key}`;
      /** @type {Units} */
      this.units = form.dataset.units === "si" ? "si" : "us";
      this.travel = 50;
      this.edited = "";
      this.asked = 0;
      this.sliding = false;
      this.widths = "";
      this.boxes = [...form.querySelectorAll(".q[data-symbol]")].map((row) => new Box(/** @type {HTMLElement} */ (row)));
      for (const box of this.boxes) box.typed.units = this.units;
      this.rows = [...form.querySelectorAll("fieldset.rows")].map((it) => new Rows(/** @type {HTMLElement} */ (it), this.boxes));
      this.choices = /** @type {HTMLSelectElement[]} */ ([...form.querySelectorAll(".q-choice select")]);
      this.figures = [...form.querySelectorAll("figure")].map((it) => new Figure(it));
      this.levels = /** @type {HTMLDetailsElement[]} */ ([...form.querySelectorAll("details.level")]);
      const part = (/** @type {string} */ selector) => /** @type {HTMLElement} */ (form.querySelector(selector));
      this.answer = part(".answer");
      this.say = part(".say");
      this.wait = part(".wait");
      this.status = part("p[role=status]");
      this.remarks = part(".remarks");
      this.results = part(".results");
      this.steps = part(".steps");
      const change = form.querySelector(".change");
      this.change = change && new Change(/** @type {HTMLElement} */ (change), (symbol, text) => this.slide(symbol, text));
      this.leaving = new AbortController();
      this.copied = part(".copied");
      this.link = "";
      /** @type {Map<string, string>} what the link gave and nobody has confirmed yet: unread, unknown or refused */
      this.unread = new Map();
      /** @type {Record<string, string>} */
      this.linkedChoices = {};
      /** @type {string[]} results that wait for the reader's own number */
      this.hide = [];
      this.otherVersion = false;
      this.listen();
      if (!this.openLink()) this.restore();
      if (this.touched || this.hide.length) this.ask();
      else this.send("numbers", this.request(null, { only: "numbers" })).then((answer) => answer && this.show(answer));
    }

    listen() {
      const form = this.form;
      form.addEventListener("submit", (event) => event.preventDefault());
      form.addEventListener("input", ({ target }) => {
        const box = this.boxes.find((it) => it.input === target);
        if (!box) return;
        this.unread.delete(box.symbol);
        box.type(box.input.value, this.units);
        box.touched();
        this.showRows();
        this.changed(box.symbol);
      });
      form.addEventListener("change", ({ target }) => {
        if (target instanceof HTMLInputElement && target.name === "units") this.switchUnits(target.value === "si" ? "si" : "us");
        if (target instanceof HTMLSelectElement && this.choices.includes(target)) {
          delete this.linkedChoices[target.name];
          this.changed(target.name);
        }
      });
      form.addEventListener("keydown", (event) => {
        const box = this.boxes.find((it) => it.input === event.target);
        if (box && event.key === "Enter") {
          event.preventDefault();
          this.changed(box.symbol).then((answered) => answered && this.announce());
        }
        if (box?.mend && event.key === "Escape") {
          box.type(box.lastGood, this.units);
          this.changed(box.symbol);
        }
      });
      form.addEventListener("focusout", () => this.showErrors());
      form.addEventListener("click", ({ target }) => {
        const act = target instanceof HTMLElement ? target.dataset.act : undefined;
        if (act === "print") this.print();
        if (act === "copy") this.copyLink();
        if (act === "example") this.startOver();
        if (act === "clear") this.fillAll(() => "");
      });
      for (const level of this.levels) level.addEventListener("toggle", () => this.keepLevels());
      const { signal } = this.leaving;
      document.addEventListener("engine-state", () => this.lookAtEngine(), { signal });
      addEventListener("hashchange", () => this.openLink() && this.ask(), { signal });
      const watch = new ResizeObserver(() => this.resized());
      watch.observe(this.host);
      signal.addEventListener("abort", () => watch.disconnect());
    }

    /** The page is turned: nothing of this sheet goes on. */
    leave() {
      this.leaving.abort();
      for (const timer of [this.quiet, this.pause, this.rest, this.late]) clearTimeout(timer);
    }

    // ---- asking ------------------------------------------------------------------------------------------

    /** @param {string | Record<string, string> | null} draw @param {object} [other] */
    request(draw, other) {
      const filled = this.boxes.filter((box) => box.typed.text.trim());
      return {
        calculator: this.key,
        given: {
          ...Object.fromEntries(filled.map((box) => [box.symbol, box.given(this.units)])),
          ...Object.fromEntries(this.unread),
        },
        from_link: [...this.unread.keys()],
        hide: this.hide,
        choices: { ...Object.fromEntries(this.choices.map((it) => [it.name, it.value])), ...this.linkedChoices },
        units: this.units,
        edited: this.edited || null,
        digits: 3,
        travel: this.travel,
        draw,
        ...other,
      };
    }

    /** The reader changed something. @param {string} symbol @returns {Promise<boolean>} as ask */
    changed(symbol) {
      this.edited = symbol;
      this.save();
      this.lookAtEngine();
      clearTimeout(this.quiet);
      this.quiet = setTimeout(() => this.announce(), QUIET_MS);
      return this.ask();
    }

    /**
     * Numbers first, so that they never wait for working or picture; then those.
     * @returns {Promise<boolean>} whether the numbers that stand there now are the answer to this very question
     */
    async ask() {
      const turn = (this.asked += 1);
      const answer = await this.send("numbers", this.request(null, { only: "numbers" }));
      if (answer) this.show(answer);
      const latest = Boolean(answer) && turn === this.asked;
      clearTimeout(this.pause);
      if (latest) this.pause = setTimeout(() => this.draw(), this.sliding ? 0 : PAUSE_MS);
      return latest;
    }

    /** @param {string} [width] */
    async draw(width) {
      const draw = width ?? Object.fromEntries(this.figures.map((it) => [it.name, it.width]));
      const answer = await this.send("drawing", this.request(draw));
      if (answer) {
        const heldBack = this.hide.length > 0 && !answer.html.results;
        if (answer.html.working || heldBack) this.steps.innerHTML = answer.html.working;
        this.steps.classList.toggle("is-stale", !answer.html.working);
        this.reachFormulas();
        for (const figure of this.figures) {
          figure.figure.hidden = heldBack;
          figure.show(answer.html, typeof draw === "string" ? draw : draw[figure.name]);
        }
      }
      clearTimeout(this.rest);
      if (this.figures.length && draw !== "both") this.rest = setTimeout(() => this.draw("both"), REST_MS);
    }

    /**
     * @param {string} slot @param {object} request
     * @returns {Promise<Answer | null>} null when a newer question took its place, or when there is no answer
     */
    async send(slot, request) {
      try {
        return (await theEngine()?.ask(`${this.key} ${slot}`, request)) ?? null;
      } catch (error) {
        if (theEngine()?.state === "failed") this.lookAtEngine();
        else this.tell(error instanceof Error ? error.message : String(error));
        return null;
      }
    }

    // ---- showing -----------------------------------------------------------------------------------------

    /** @param {Answer} answer */
    show(answer) {
      this.tell("");
      this.link = answer.link;
      for (const box of this.boxes) {
        if (answer.fields[box.symbol]?.error?.code === "e-link") this.setAside(box);
        else this.unread.delete(box.symbol);
        box.show(answer.fields[box.symbol]);
      }
      this.showRows();
      if (this.hide.length && !answer.html.results) this.results.innerHTML = "";
      const whole = Boolean(answer.html.sentence && (answer.html.results || this.hide.length));
      this.answer.classList.toggle("is-stale", !whole);
      if (answer.html.sentence) this.say.innerHTML = answer.html.sentence;
      if (answer.html.results) this.results.innerHTML = answer.html.results;
      this.remarks.replaceChildren(
        ...[...(this.otherVersion ? [OTHER_VERSION] : []), ...answer.remarks].map((text) => {
          const line = document.createElement("li");
          line.textContent = text;
          return line;
        }),
      );
      this.remarks.hidden = !this.remarks.childElementCount;
      this.change?.show(answer.sliders);
      for (const box of this.boxes) if (box.mend && (!box.error.hidden || document.activeElement !== box.input)) this.mend(box);
      clearTimeout(this.late);
      this.late = setTimeout(() => this.showErrors(), ERROR_MS);
      this.countErrors();
    }

    showRows() {
      for (const rows of this.rows) rows.show();
    }

    /** @param {Box} box */
    mend(box) {
      box.showError((text) => {
        box.type(text, this.units);
        box.input.focus();
        this.changed(box.symbol);
      });
    }

    showErrors() {
      for (const box of this.boxes) if (box.mend && box.error.hidden) this.mend(box);
      this.countErrors();
    }

    countErrors() {
      for (const level of this.levels) {
        const note = level.querySelector(".level-note");
        const count = level.querySelectorAll(".q.is-error").length;
        if (note) note.textContent = count ? `${count} ${count === 1 ? "box" : "boxes"} to mend` : "";
      }
    }

    /** Says the answer once, after typing has stopped; what stands on the screen has long changed. */
    announce() {
      clearTimeout(this.quiet);
      this.showErrors();
      const wrong = this.boxes.filter((box) => !box.error.hidden && !box.row.hidden);
      const words = wrong.map((box) => `${box.label}: ${box.error.textContent}`).join(" ");
      this.status.textContent = words || this.wait.textContent || this.say.textContent;
    }

    /** A line above the answer about the calculator itself; none while all is well. @param {string} words */
    tell(words) {
      this.wait.textContent = words;
      this.wait.hidden = !words;
    }

    /** Whether the sheet asks something else than the worked example that came with the page. */
    get touched() {
      return (
        this.units !== this.form.dataset.units ||
        this.boxes.some((box) => box.input.value !== box.input.defaultValue) ||
        this.choices.some((list) => !list.selectedOptions[0]?.defaultSelected)
      );
    }

    /** Says what is the matter while the engine cannot answer, and marks what stands there as not the reader's. */
    lookAtEngine() {
      const { state, reason } = theEngine() ?? { state: "failed", reason: CANNOT_RUN };
      if (state === "ready") return;
      const touched = this.touched;
      if (state === "failed") this.tell(touched ? `${reason} ${EXAMPLE_ONLY}` : reason);
      else if (touched) this.tell(GETTING_READY);
      for (const part of [this.answer, this.steps]) part.classList.toggle("is-stale", touched);
      for (const figure of this.figures) figure.setStale(touched);
    }

    /** A formula too long for its line slides; then the keyboard must reach it. */
    reachFormulas() {
      for (const line of /** @type {NodeListOf<HTMLElement>} */ (this.steps.querySelectorAll(".formula"))) {
        if (line.scrollWidth > line.clientWidth) line.tabIndex = 0;
        else line.removeAttribute("tabindex");
      }
    }

    markUnits() {
      for (const radio of this.form.querySelectorAll("input[name=units]")) {
        const it = /** @type {HTMLInputElement} */ (radio);
        it.checked = it.value === this.units;
      }
    }

    resized() {
      const widths = this.figures.map((it) => it.width).join();
      if (this.widths && widths !== this.widths) this.draw();
      this.widths = widths;
      this.reachFormulas();
    }

    // ---- what the reader does ----------------------------------------------------------------------------

    /**
     * Shows the same quantities in other units. The text that was typed stays what counts, so switching twice shows
     * it again; calc does the converting.
     * @param {Units} units
     */
    async switchUnits(units) {
      const before = this.units;
      this.lookAtEngine();
      let answer, turn;
      do {
        turn = this.asked;
        answer = await this.send("units", this.request(null));
      } while (answer && turn !== this.asked); // typed in the meantime
      if (!answer || this.units !== before) {
        this.markUnits();
        return;
      }
      this.units = units;
      for (const box of this.boxes) box.convert(units, answer.fields[box.symbol]);
      this.changed("");
    }

    /** @param {string} symbol @param {string} text */
    slide(symbol, text) {
      if (symbol === "travel") {
        this.travel = Number(text);
        this.save();
        this.draw();
        return;
      }
      const box = this.boxes.find((it) => it.symbol === symbol);
      if (!box) return;
      box.type(text, this.units);
      box.touched();
      this.sliding = true; // under a moving handle the drawing keeps up
      this.changed(box.symbol).finally(() => (this.sliding = false));
    }

    startOver() {
      for (const list of this.choices) list.value = list.dataset[this.units] ?? "";
      this.travel = 50;
      this.forget();
      this.fillAll((box) => box.input.dataset[this.units] ?? "");
    }

    /** @param {(box: Box) => string} text */
    fillAll(text) {
      this.unread.clear();
      for (const box of this.boxes) {
        if (box.input.readOnly) continue;
        box.type(text(box), this.units);
        box.hideError();
        box.mend = null;
        box.touched();
      }
      this.changed("");
    }

    keepLevels() {
      const open = this.levels.filter((it) => it.open).map((it) => it.dataset.level);
      this.form.dataset.open = ["1", ...open].join(" ");
      this.save();
    }

    /** Prints this sheet alone, its pictures brought up to date first. */
    async print() {
      await this.draw("both");
      const page = document.documentElement;
      page.dataset.print = this.key;
      this.host.dataset.printing = "";
      addEventListener(
        "afterprint",
        () => {
          delete page.dataset.print;
          delete this.host.dataset.printing;
        },
        { once: true },
      );
      print();
    }

    // ---- links -------------------------------------------------------------------------------------------

    /** Forgets what a link asked for: nothing hidden, nothing locked, nothing unread. */
    forget() {
      this.unread = new Map();
      this.linkedChoices = {};
      this.hide = [];
      this.otherVersion = false;
      for (const box of this.boxes) box.lock(false);
      for (const list of this.choices) list.disabled = false;
    }

    /** Fills the sheet from the address if the address is for this sheet. @returns {boolean} whether it was */
    openLink() {
      const parts = sheetLink.read(location.hash, this.choices.map((it) => it.name));
      if (parts.calculator !== this.key) return false;
      this.forget();
      this.units = parts.units;
      this.markUnits();
      this.hide = parts.hide;
      this.otherVersion = parts.version !== sheetLink.VERSION;
      this.unread = new Map(Object.entries(parts.given));
      this.linkedChoices = parts.choices;
      for (const box of this.boxes) {
        box.type(parts.given[box.symbol] ?? "", this.units);
        box.hideError();
        box.mend = null;
        box.touched();
        box.lock(parts.lock.includes(box.symbol));
      }
      for (const list of this.choices) {
        const wanted = parts.choices[list.name];
        if ([...list.options].some((it) => it.value === wanted)) list.value = wanted;
        list.disabled = parts.lock.includes(list.name);
      }
      for (const level of this.levels) level.open = parts.level.includes(level.dataset.level ?? "");
      this.lookAtEngine();
      this.host.scrollIntoView();
      return true;
    }

    /** A box whose text from the link can't be read is emptied; the text stays in the message. @param {Box} box */
    setAside(box) {
      box.input.value = "";
      box.typed.text = "";
    }

    /** Copies a link that opens this sheet with these numbers, and shows it too: not every browser may copy. */
    async copyLink() {
      const parts = [this.link || `c=${this.key}`];
      const open = this.levels.filter((it) => it.open).map((it) => it.dataset.level);
      const locked = [...this.boxes.filter((it) => it.input.readOnly).map((it) => it.symbol)];
      for (const [name, values] of Object.entries({ level: open, hide: this.hide, lock: locked })) {
        if (values.length) parts.push(`${name}=${values.join(",")}`);
      }
      const field = /** @type {HTMLInputElement} */ (this.copied.querySelector("input"));
      const words = /** @type {HTMLElement} */ (this.copied.querySelector("span"));
      field.value = `${location.href.split("#")[0]}#${parts.join("&")}`;
      this.copied.hidden = false;
      try {
        await navigator.clipboard.writeText(field.value);
        words.textContent = "Copied.";
      } catch {
        field.focus();
        field.select();
        words.textContent = "Copy it from here.";
      }
    }

    // ---- a reload keeps what was typed --------------------------------------------------------------------

    save() {
      memory.set(this.place, {
        units: this.units,
        boxes: this.boxes.map((box) => [box.symbol, box.typed, box.input.value]),
        choices: this.choices.map((it) => [it.name, it.value]),
        travel: this.travel,
        open: this.form.dataset.open,
      });
    }

    restore() {
      const kept = memory.get(this.place);
      if (!kept) return;
      this.units = kept.units;
      this.travel = kept.travel;
      this.markUnits();
      for (const [name, value] of kept.choices) {
        const list = this.choices.find((it) => it.name === name);
        if (list) list.value = value;
      }
      for (const [symbol, typed, shown] of kept.boxes) {
        const box = this.boxes.find((it) => it.symbol === symbol);
        if (!box) continue;
        box.input.value = shown;
        box.typed = typed;
        if (shown !== box.input.defaultValue) box.touched();
      }
      const open = String(kept.open).split(" ");
      for (const level of this.levels) level.open = open.includes(level.dataset.level ?? "");
      this.lookAtEngine();
    }
  }

  class CalculatorSheet extends HTMLElement {
    /** @type {Sheet | undefined} */
    sheet;

    connectedCallback() {
      const form = this.querySelector("form");
      if (!form || this.sheet) return;
      this.sheet = new Sheet(this, form);
    }

    disconnectedCallback() {
      this.sheet?.leave();
      this.sheet = undefined;
    }
  }

  customElements.define("calculator-sheet", CalculatorSheet);
})();
