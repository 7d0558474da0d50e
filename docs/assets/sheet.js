/*
 * <calculator-sheet key="lever">: makes a worked sheet answer what the reader types.
 *
 * The sheet is complete without this file. Here it only reads boxes, asks the engine, and shows what comes back:
 * no number is computed and no unit converted in this file. Its parts stand beside it: box.js, change.js, figure.js,
 * and renew.js, which takes nothing but the fragments that calc makes.
 */
"use strict";

/**
 * @typedef {{link: string, fields: Record<string, Field>, sliders: Slider[],
 *            remarks: string[], leads: {link: string}[], html: Record<string, string>}} Answer
 *   or the part of it that was asked for
 */

(() => {
  const QUIET_MS = 800; // typing has stopped: announce once
  const ERROR_MS = 400; // a half-typed "5 ft 3-" is not an error yet
  const PAUSE_MS = 200; // longer than between two keys: the next number must not wait behind a drawing
  const REST_MS = 1500; // the reader pauses: draw the width that is not on screen, for paper
  const GETTING_READY = "Getting the calculator ready…";
  const CANNOT_RUN = "The calculator cannot run here. Use the formula and the worked numbers below.";
  const EXAMPLE_ONLY = "The results below belong to the worked example.";

  const PRACTICE = 60; // by then the browser has compiled most of what answers a question for speed
  let practised = false;

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
      this.heldBack = false;
      this.widths = "";
      this.boxes = [...form.querySelectorAll(".q[data-symbol]")].map((row) => new Box(/** @type {HTMLElement} */ (row)));
      for (const box of this.boxes) box.typed.units = this.units;
      this.rows = [...form.querySelectorAll("fieldset.rows")].map((it) => new Rows(/** @type {HTMLElement} */ (it), this.boxes));
      this.choices = /** @type {HTMLSelectElement[]} */ ([...form.querySelectorAll(".q-choice select")]);
      this.figures = [...host.querySelectorAll("figure")].map((it) => new Figure(it));
      this.levels = /** @type {HTMLDetailsElement[]} */ ([...form.querySelectorAll("details.level")]);
      const part = (/** @type {string} */ selector) => /** @type {HTMLElement} */ (form.querySelector(selector));
      this.answer = part(".answer");
      this.say = part(".say");
      this.wait = part(".wait");
      this.status = part("p[role=status]");
      this.remarks = part(".remarks");
      this.results = part(".results");
      this.leads = /** @type {HTMLElement[]} */ ([...form.querySelectorAll(".leads li")]);
      this.steps = part(".steps");
      const change = form.querySelector(".change");
      this.change = change && new Change(/** @type {HTMLElement} */ (change), (symbol, text) => this.slide(symbol, text));
      this.leaving = new AbortController();
      this.sharing = part(".copied");
      /** @type {Promise<void> | null} */
      this.enlarging = null;
      this.link = "";
      /** @type {Map<string, string>} what the link gave and nobody has confirmed yet: unread, unknown or refused */
      this.unread = new Map();
      /** @type {Record<string, string>} */
      this.linkedChoices = {};
      this.prediction = new Prediction(form);
      this.otherVersion = false;
      /** @type {Promise<void>} settles when the first answer stands in the sheet */
      this.answered = new Promise((resolve) => (this.hasAnswered = resolve));
    }

    /** From here on the sheet answers. */
    start() {
      this.listen();
      if (!this.openLink()) this.restore();
      (this.touched || this.prediction.hide.length ? this.ask(0) : this.begin()).then(() => this.practise());
    }

    listen() {
      const form = this.form;
      form.addEventListener("submit", (event) => event.preventDefault());
      form.addEventListener("input", ({ target }) => {
        const box = this.boxes.find((it) => it.input === target);
        if (!box) return;
        this.unread.delete(box.symbol);
        box.type(box.input.value, this.units);
        if (this.prediction.waitsFor(box.symbol)) return;
        this.prediction.outlived();
        box.touched();
        this.showRows();
        this.changed(box.symbol, PAUSE_MS);
      });
      form.addEventListener("change", ({ target }) => {
        if (target instanceof HTMLInputElement && target.name === "units") this.switchUnits(target.value === "si" ? "si" : "us");
        const box = this.boxes.find((it) => it.input === target);
        if (box && this.prediction.waitsFor(box.symbol)) this.predict(box);
        if (target instanceof HTMLSelectElement && this.choices.includes(target)) {
          this.prediction.outlived();
          delete this.linkedChoices[target.name];
          this.changed(target.name);
        }
      });
      form.addEventListener("keydown", (event) => {
        const box = this.boxes.find((it) => it.input === event.target);
        if (box && event.key === "Enter") {
          event.preventDefault();
          if (this.prediction.waitsFor(box.symbol)) this.predict(box);
          else this.changed(box.symbol).then((answered) => answered && this.announce());
        }
        if (box?.mend && event.key === "Escape") {
          box.type(box.lastGood, this.units);
          this.changed(box.symbol);
        }
      });
      for (const moved of ["focusin", "selectionchange"]) form.addEventListener(moved, () => this.foresee());
      form.addEventListener("focusout", () => this.showErrors());
      this.host.addEventListener("click", ({ target }) => {
        const act = target instanceof HTMLElement ? target.dataset.act : undefined;
        if (act === "print") this.print("sheet");
        if (act === "print-page") this.print("page");
        if (act === "share") this.share();
        if (act === "big") this.big(/** @type {HTMLElement} */ (target));
        if (act === "example") this.startOver();
        if (act === "clear") this.fillAll(() => "");
        if (act === "predict") this.predictFirst();
        // A lead to this very page whose numbers stand in the address already: the browser would do nothing.
        if (target instanceof HTMLAnchorElement && target.hash && target.href === location.href) {
          dispatchEvent(new Event("hashchange"));
        }
      });
      for (const level of this.levels) level.addEventListener("toggle", () => this.keepLevels());
      const { signal } = this.leaving;
      document.addEventListener("engine-state", () => this.lookAtEngine(), { signal });
      addEventListener("hashchange", () => this.openLink() && this.ask(0), { signal });
      const watch = new ResizeObserver(() => this.resized());
      watch.observe(this.host);
      signal.addEventListener("abort", () => watch.disconnect());
    }

    /** The page is turned: nothing of this sheet goes on. */
    leave() {
      this.leaving.abort();
      theEngine()?.foresee?.(() => []);
      for (const timer of [this.quiet, this.pause, this.rest, this.late]) clearTimeout(timer);
    }

    // ---- asking ------------------------------------------------------------------------------------------

    /**
     * @param {"numbers" | "working" | "pictures"} [only] @param {Record<string, string>} [draw] figure to width
     * @param {{box: Box, text: string}} [next] what would be asked if this were typed in that box
     */
    request(only, draw, next) {
      const text = (/** @type {Box} */ box) => (box === next?.box ? next.text : box.given(this.units));
      const filled = this.boxes.filter((box) => text(box).trim() && !this.prediction.waitsFor(box.symbol));
      const unread = [...this.unread].filter(([symbol]) => symbol !== next?.box.symbol);
      return {
        calculator: this.key,
        given: { ...Object.fromEntries(filled.map((box) => [box.symbol, text(box)])), ...Object.fromEntries(unread) },
        from_link: unread.map(([symbol]) => symbol),
        ...this.prediction.asked,
        choices: { ...Object.fromEntries(this.choices.map((it) => [it.name, it.value])), ...this.linkedChoices },
        units: this.units,
        edited: next?.box.symbol ?? (this.edited || null),
        digits: 3,
        travel: this.travel,
        draw: draw ?? null,
        only: only ?? null,
      };
    }

    /** The reader changed something. @param {string} symbol @param {number} [pause] as ask @returns {Promise<boolean>} as ask */
    changed(symbol, pause = 0) {
      this.edited = symbol;
      this.save();
      this.lookAtEngine();
      clearTimeout(this.quiet);
      const answered = this.ask(pause);
      this.quiet = setTimeout(() => {
        if (!this.wait.hidden) this.announce(); // why there is no answer yet, or none at all
        answered.then((whole) => whole && this.announce());
      }, QUIET_MS);
      return answered;
    }

    /** The page holds the worked example whole: only what no page can hold is missing. */
    async begin() {
      const answer = await this.send("numbers", this.request("numbers"));
      if (answer) this.show(answer);
      await this.work();
      if (this.figures.some((it) => it.lacks(it.width))) await this.draw(this.widthsShown());
      else if (this.figures.some((it) => it.lacks("narrow"))) this.drawOthersLater();
    }

    /** A fresh engine answers its first questions several times slower than later ones: nobody waits for these. */
    async practise() {
      if (practised) return;
      practised = true;
      for (let left = PRACTICE; left && !this.asked && !this.leaving.signal.aborted; left -= 1) {
        await this.send("practice", this.request("numbers"));
      }
    }

    /**
     * Numbers first, so that they never wait for working or pictures.
     * @param {number} pause in ms, before working and pictures are asked for
     * @returns {Promise<boolean>} whether the numbers that stand there now are the answer to this very question
     */
    async ask(pause) {
      const turn = (this.asked += 1);
      clearTimeout(this.pause);
      const answer = await this.send("numbers", this.request("numbers"));
      if (answer) this.show(answer);
      this.foresee();
      if (!answer || turn !== this.asked) return false;
      this.pause = setTimeout(() => this.finish(), pause);
      return true;
    }

    /** Has the numbers ready that the next key in the focused box would ask for. */
    foresee() {
      theEngine()?.foresee?.(() => {
        const box = this.boxes.find((it) => it.input === document.activeElement);
        if (!box || this.prediction.waitsFor(box.symbol)) return [];
        return box.nextTexts().map((text) => this.request("numbers", undefined, { box, text }));
      });
    }

    /** Pictures and working in turn, two short questions, so that the number of the next key waits for one at most. */
    async finish() {
      const turn = this.asked;
      await this.draw(this.widthsShown());
      if (turn === this.asked) await this.work();
    }

    /** A working that comes after newer numbers, which may have been foreseen, is not theirs: another will be asked for. */
    async work() {
      const turn = this.asked;
      const answer = await this.send("working", this.request("working"));
      if (!answer || turn !== this.asked) return;
      const { working } = answer.html;
      if (working) renew(this.steps, working);
      this.reachFormulas();
      this.steps.classList.toggle("is-stale", !working);
      this.change?.show(answer.sliders);
    }

    widthsShown() {
      return Object.fromEntries(this.figures.map((it) => [it.name, it.width]));
    }

    /** @param {Record<string, string>} widths  figure to "wide", "narrow" or "both" */
    async draw(widths) {
      if (!this.figures.length) return;
      const answer = await this.send("pictures", this.request("pictures", widths));
      if (answer) {
        for (const figure of this.figures) figure.show(answer.html, widths[figure.name]);
      }
      if (this.figures.some((it) => widths[it.name] === it.width)) this.drawOthersLater();
    }

    /** The widths that are not on the screen, for paper. */
    drawOthersLater() {
      const others = Object.fromEntries(this.figures.map((it) => [it.name, it.width === "wide" ? "narrow" : "wide"]));
      clearTimeout(this.rest);
      this.rest = setTimeout(() => this.draw(others), REST_MS);
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
      this.heldBack = this.prediction.hide.length > 0 && !this.prediction.revealed && !answer.html.results;
      this.prediction.revealed ||= this.prediction.hide.length > 0 && !this.heldBack;
      this.prediction.show(answer.html.prediction);
      for (const figure of this.figures) figure.figure.hidden = this.heldBack;
      const change = /** @type {HTMLElement | null} */ (this.form.querySelector(".change"));
      if (change) change.hidden = this.heldBack;
      if (this.heldBack) for (const part of [this.results, this.steps]) renew(part, "");
      const whole = Boolean(answer.html.sentence && (answer.html.results || this.heldBack));
      this.answer.classList.toggle("is-stale", !whole);
      if (answer.html.sentence) renew(this.say, answer.html.sentence);
      if (answer.html.results) renew(this.results, answer.html.results);
      this.showLeads(answer);
      this.remarks.replaceChildren(
        ...[...(this.otherVersion ? [sheetLink.OTHER_VERSION] : []), ...answer.remarks].map((text) => {
          const line = document.createElement("li");
          line.textContent = text;
          return line;
        }),
      );
      this.remarks.hidden = !this.remarks.childElementCount;
      for (const box of this.boxes) if (box.mend && (!box.error.hidden || document.activeElement !== box.input)) this.mend(box);
      clearTimeout(this.late);
      this.late = setTimeout(() => this.showErrors(), ERROR_MS);
      this.countErrors();
      this.hasAnswered();
    }

    /** Where this sheet leads on: the build has filled in the pages, the answer has the numbers. @param {Answer} answer */
    showLeads(answer) {
      this.leads.forEach((line, at) => {
        const link = answer.leads[at]?.link ?? "";
        line.hidden = !link;
        if (link) /** @type {HTMLAnchorElement} */ (line.firstElementChild).hash = link;
      });
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
        if (note) renewText(note, count ? `${count} ${count === 1 ? "box" : "boxes"} to mend` : "");
      }
    }

    /** Says the answer once, after typing has stopped; what stands on the screen has long changed. */
    announce() {
      clearTimeout(this.quiet);
      this.showErrors();
      const wrong = this.boxes.filter((box) => !box.error.hidden && !box.row.hidden);
      const words = wrong.map((box) => `${box.label}: ${box.error.textContent}`).join(" ");
      this.status.textContent = words || this.wait.textContent || `${this.prediction.line.textContent} ${this.say.textContent}`.trim();
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
      if (this.widths && widths !== this.widths) this.draw(this.widthsShown());
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
        answer = await this.send("units", this.request("numbers"));
      } while (answer && turn !== this.asked); // typed in the meantime
      if (!answer || this.units !== before) {
        this.markUnits();
        return;
      }
      this.units = units;
      for (const box of this.boxes) box.convert(units, answer.fields[box.symbol]);
      this.changed("");
    }

    /** Holds the effort back until the reader has predicted it, or shows it again. */
    predictFirst() {
      const { symbol } = this.prediction;
      this.prediction.begin(this.heldBack ? [] : [symbol]);
      const box = this.boxes.find((it) => it.symbol === symbol);
      box?.type("", this.units);
      box?.touched();
      box?.input.focus();
      this.changed(symbol);
    }

    /** The reader commits to a number: it is compared, and leaves its box to the answer. @param {Box} box */
    async predict(box) {
      const text = box.input.value;
      if (!text.trim()) return;
      this.prediction.commit(box, this.units);
      box.type("", this.units);
      const answered = await this.changed(box.symbol);
      if (this.heldBack) box.input.value ||= text; // unless something else was typed meanwhile
      else if (answered) this.announce();
    }

    /** @param {string} symbol @param {string} text */
    slide(symbol, text) {
      if (symbol === "travel") {
        this.travel = Number(text);
        this.save();
        this.draw(this.widthsShown());
        return;
      }
      const box = this.boxes.find((it) => it.symbol === symbol);
      if (!box) return;
      this.prediction.outlived();
      box.type(text, this.units);
      box.touched();
      this.changed(box.symbol);
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
      this.prediction.outlived();
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

    /** Prints this sheet alone, its pictures brought up to date first. @param {"sheet" | "page"} part  or its page at true size */
    async print(part) {
      await this.draw(Object.fromEntries(this.figures.map((it) => [it.name, "both"])));
      await this.work();
      if (part === "sheet" && location.protocol !== "file:") await fetched("share").then(() => Share.onPaper(this.fragment()), () => {});
      printAlone([document.documentElement, "print", this.key], [this.host, "printing", part]);
    }

    // ---- links -------------------------------------------------------------------------------------------

    /** Forgets what a link asked for: nothing hidden, nothing locked, nothing unread. */
    forget() {
      this.unread = new Map();
      this.linkedChoices = {};
      this.prediction.begin([]);
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
      this.prediction.begin(parts.hide);
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

    fragment() {
      const parts = [this.link || `c=${this.key}`];
      const open = this.levels.filter((it) => it.open).map((it) => it.dataset.level);
      const locked = [...this.boxes.filter((it) => it.input.readOnly).map((it) => it.symbol)];
      for (const [name, values] of Object.entries({ level: open, hide: this.prediction.hide, lock: locked })) {
        if (values.length) parts.push(`${name}=${values.join(",")}`);
      }
      return parts.join("&");
    }

    /** One at a time: the second of two quick clicks must not open it again after the first was left. @param {HTMLElement} from */
    big(from) {
      this.enlarging ??= this.enlarge(from).finally(() => { this.enlarging = null; });
    }

    /** The narrow drawing has the larger words for its size. @param {HTMLElement} from */
    async enlarge(from) {
      await this.draw(Object.fromEntries(this.figures.map((it) => [it.name, "narrow"])));
      await fetched("big");
      await showBig(this.host, from);
    }

    async share() {
      await fetched("share");
      this.shared ??= new Share(this.sharing);
      const { given, choices, hide, lock } = sheetLink.read(this.fragment(), this.choices.map((it) => it.name));
      const called = (/** @type {string} */ symbol) => this.boxes.find((it) => it.symbol === symbol)?.label ?? symbol;
      const holds = [
        this.units === "us" ? "US units" : "SI units",
        ...Object.entries(given).map(([symbol, text]) => `${called(symbol)} ${text}`),
        ...this.choices.filter((it) => it.name in choices).map((it) => it.selectedOptions[0]?.textContent ?? ""),
        ...(hide.length ? [`hidden until a number is typed: ${hide.map(called).join(", ")}`] : []),
        ...(lock.length ? [`not to be changed: ${lock.map(called).join(", ")}`] : []),
      ];
      this.shared.show(this.fragment(), { holds, lacks: "results and names" });
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
      this.prepare();
    }

    /** A page that is turned asks before it shows the sheet. @returns {Promise<void> | undefined} as Sheet's `answered` */
    prepare() {
      const form = this.querySelector("form");
      if (form && !this.sheet) {
        this.sheet = new Sheet(this, form);
        this.sheet.start();
      }
      return this.sheet?.answered;
    }

    /** What the sheet of a page that may come next will ask first, unless something was typed there. @returns {object[]} */
    foretell() {
      const form = this.querySelector("form");
      return form ? [new Sheet(this, form).request("numbers")] : [];
    }

    disconnectedCallback() {
      this.sheet?.leave();
      this.sheet = undefined;
    }
  }

  customElements.define("calculator-sheet", CalculatorSheet);
})();
