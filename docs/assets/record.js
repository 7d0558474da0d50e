/*
 * <record-sheet key="ramp-lab">: a table of readings that is judged while it is typed.
 *
 * It reads boxes, asks the engine, and shows what comes back; no number is computed here. Until something is typed, the
 * page's invented readings stand in gray, with what they say below.
 */
"use strict";

(() => {
  const PAUSE_MS = 250;
  const QUIET_MS = 900;
  const MOST_ROWS = 200;
  const STEPS_BACK = 50;
  const PICTURES = ["trials", "law", "work"];
  const TOOLS = ["unit", "division", "capacity", "accuracy", "tape", "calliper", "position", "hook"];
  const LENGTHS = { us: "in", si: "mm" };

  class Record {
    /** @param {HTMLElement} host @param {HTMLFormElement} form */
    constructor(host, form) {
      this.host = host;
      this.form = form;
      this.key = host.getAttribute("key") ?? "";
      this.keeping = new Keeping(`record ${this.key}`);
      this.samples = JSON.parse(form.dataset.samples ?? "{}");
      /** @type {string[]} */
      this.past = [];
      this.asked = 0;
      /** What a link says that fills nothing in here, in sentences. */
      this.leftOut = "";
      this.leaving = new AbortController();
      const part = (/** @type {string} */ selector) => /** @type {HTMLElement} */ (form.querySelector(selector));
      this.table = /** @type {HTMLTableElement} */ (part(".r-table"));
      this.errors = part(".r-errors");
      this.sample = part(".r-sample");
      this.verdict = part(".r-verdict");
      this.results = part(".r-results");
      this.status = part("p[role=status]");
      this.wait = part(".wait");
      this.undoButton = /** @type {HTMLButtonElement} */ (part("[data-act=undo]"));
      this.file = /** @type {HTMLInputElement} */ (part("input[type=file]"));
      this.keep = /** @type {HTMLInputElement} */ (part("input[name=keep]"));
      this.guess = new Guess(form);
      this.figures = PICTURES.map((name) => new Figure(part(`figure.${name}`)));
      this.grid = new Grid(this.table, (cells) => this.pasted(cells), () => this.addRow());
      this.listen();
      const kept = this.keeping.read();
      this.keep.checked = this.keeping.long;
      if (kept) this.fill(kept);
      this.sharing = part(".copied");
      this.openLink();
      this.before = JSON.stringify(this.state());
      this.ask(0);
    }

    listen() {
      const { form } = this;
      form.addEventListener("submit", (event) => event.preventDefault());
      form.addEventListener("input", ({ target }) => {
        if (target === this.file || target === this.keep || this.guess.holds(target)) return;
        if (target instanceof HTMLInputElement && target.name === "units") return;
        this.changed(PAUSE_MS);
      });
      form.addEventListener("focusin", ({ target }) => {
        if (target instanceof HTMLInputElement) this.atFocus = target.value;
      });
      form.addEventListener("keydown", (event) => {
        if (event.key === "Enter" && event.target === this.guess.box) this.predict();
        const own = event.target instanceof HTMLInputElement && event.target.value !== this.atFocus;
        if (event.key.toLowerCase() !== "z" || !(event.ctrlKey || event.metaKey) || event.shiftKey || own) return;
        event.preventDefault(); // nothing was typed since this box was entered: the last change of the sheet is meant
        this.undo();
      });
      form.addEventListener("change", ({ target }) => {
        if (target === this.file) this.openFile();
        else if (target === this.keep) this.save();
        else if (target === this.guess.box) return;
        else if (target === this.guess.tick) this.predictFirst();
        else if (target instanceof HTMLInputElement && target.name === "units") this.switchUnits();
        else this.remember();
      });
      form.addEventListener("click", ({ target }) => {
        const act = target instanceof HTMLElement ? target.dataset.act : undefined;
        if (act === "save") this.saveFile();
        if (act === "open") this.file.click();
        if (act === "print") this.print();
        if (act === "share") this.share();
        if (act === "predict") this.predict();
        if (act === "decline") this.decline();
        if (act === "sample") this.fillInSample();
        if (act === "undo") this.undo();
        if (act === "clear") this.clear();
        if (target instanceof HTMLElement && target.dataset.fill) this.mend(target);
      });
      const { signal } = this.leaving;
      document.addEventListener("engine-state", () => this.lookAtEngine(), { signal });
      addEventListener("hashchange", () => this.openLink() && this.changed(0), { signal });
    }

    leave() {
      this.leaving.abort();
      clearTimeout(this.pause);
      clearTimeout(this.quiet);
    }

    // ---- links: units, sizes and instruments, never a reading -----------------------------------------------

    /** @returns {[string, string][]} what a teacher sets up for all groups */
    setUp() {
      const { once, tools, tare } = this.state();
      const parts = [...Object.entries(once), ...Object.entries(tools), ...(tare ? [["tare", tare]] : [])];
      return parts.map(([name, text]) => [name, this.withUnit(name, text)]);
    }

    /** A bare number gets the unit that stands behind its box: a link must not depend on what that was. The scale's own is in the link already. @param {string} name @param {string} text */
    withUnit(name, text) {
      const unit = this.box(name).closest(".r-box")?.querySelector(".unit:not([data-unit=scale])")?.textContent?.trim();
      return unit && /^[\d./ -]+$/.test(text) ? `${text.trim()} ${unit}` : text;
    }

    get hiding() {
      return this.guess.on ? "E" : "";
    }

    fragment() {
      /** @type {[string, string][]} */
      const hide = this.hiding ? [["hide", this.hiding]] : [];
      return sheetLink.write([["c", this.key], ["v", sheetLink.VERSION], ["u", this.units], ...this.setUp(), ...hide]);
    }

    async share() {
      await fetched("share");
      this.shared ??= new Share(this.sharing);
      this.shared.show(this.fragment(), { holds: this.linkHolds(), lacks: "readings, results and names" });
    }

    linkHolds() {
      const words = this.setUp().map(([name, text]) => `${this.box(name).labels?.[0]?.textContent ?? name} ${this.wordsOf(name, text)}`);
      return [this.units === "us" ? "US units" : "SI units", ...words, ...(this.hiding ? ["prediction first"] : [])];
    }

    /** @param {string} name @param {string} text */
    wordsOf(name, text) {
      const box = /** @type {any} */ (this.box(name));
      return box instanceof HTMLSelectElement ? box.selectedOptions[0].textContent : text;
    }

    /** Sets the sheet up as the address says, if it is for this sheet; readings that stand in it stay. @returns {boolean} */
    openLink() {
      const { calculator, version, units, given, hide } = sheetLink.read(location.hash, []);
      if (calculator !== this.key) return false;
      if (hide.includes("E") && !this.guess.on) this.guess.begin(true);
      const state = this.state();
      const once = Object.fromEntries(this.onceBoxes.map((box) => [box.name, given[box.name] ?? ""]).filter(([, text]) => text));
      const tools = Object.fromEntries(TOOLS.filter((name) => given[name] && this.offers(name, given[name])).map((name) => [name, given[name]]));
      this.leftOut = [...(version === sheetLink.VERSION ? [] : [sheetLink.OTHER_VERSION]), ...this.notTaken(given)].join(" ");
      this.fill({ ...state, units, once, tools, tare: given.tare ?? "" });
      this.host.scrollIntoView();
      return true;
    }

    /** @param {string} name of an instrument's box @param {string} text */
    offers(name, text) {
      const box = /** @type {any} */ (this.box(name));
      return !box.options || [...box.options].some((it) => it.value === text);
    }

    /** @param {Record<string, string>} given by a link @returns {string[]} a sentence for each part that fills nothing in */
    notTaken(given) {
      const places = [...this.onceBoxes.map((box) => box.name), "tare"];
      return Object.entries(given).flatMap(([name, text]) => {
        if (places.includes(name)) return [];
        if (!TOOLS.includes(name)) return [`A link fills no “${name}” in here.`];
        return !text || this.offers(name, text) ? [] : [`${this.box(name).labels?.[0]?.textContent ?? name}: there is no “${text}” here. Choose it yourself.`];
      });
    }

    // ---- what stands in the sheet --------------------------------------------------------------------------

    get units() {
      return this.box("units:checked").value;
    }

    /** @param {string} name @returns {HTMLInputElement} */
    box(name) {
      const [stem, state] = name.split(":");
      return /** @type {HTMLInputElement} */ (this.form.querySelector(`[name="${stem}"]${state ? `:${state}` : ""}`));
    }

    /** @returns {HTMLInputElement[]} the boxes of sizes that are measured once */
    get onceBoxes() {
      const boxes = this.form.querySelectorAll(`input[id^="${this.key}-once-"]`);
      return /** @type {HTMLInputElement[]} */ ([...boxes]);
    }

    /** All that was typed. @returns {any} */
    state() {
      const rows = [...this.grid.rows].map((row) => {
        const cells = this.grid.boxes(row).map((box) => [box.name, box.value]);
        const out = /** @type {HTMLInputElement | null} */ (row.querySelector("[name=out]"))?.checked;
        return { ...Object.fromEntries(cells.filter(([, text]) => text.trim())), ...(out ? { out } : {}) };
      });
      while (rows.length && !Object.keys(rows[rows.length - 1]).length) rows.pop();
      const once = Object.fromEntries(this.onceBoxes.map((box) => [box.name, box.value]).filter(([, text]) => text));
      const tools = Object.fromEntries(TOOLS.map((name) => [name, this.box(name).value]).filter(([, text]) => text));
      return { units: this.units, group: this.box("group").value, once, tools, tare: this.box("tare")?.value ?? "", rows, predict: this.guess.state };
    }

    /** Whether the reader has typed any reading or size yet. @param {any} state */
    static touched(state) {
      return state.rows.length > 0 || Object.keys(state.once).length > 0;
    }

    /** @param {any} state */
    fill(state) {
      this.box(`units`).form?.querySelectorAll("[name=units]").forEach((it) => {
        /** @type {HTMLInputElement} */ (it).checked = /** @type {HTMLInputElement} */ (it).value === state.units;
      });
      this.box("group").value = state.group ?? "";
      this.guess.fill(state.predict);
      for (const box of this.onceBoxes) box.value = state.once?.[box.name] ?? "";
      if (this.box("tare")) this.box("tare").value = state.tare ?? "";
      for (const name of TOOLS) {
        const box = this.box(name);
        if (box instanceof HTMLSelectElement) box.value = state.tools?.[name] ?? (name === "unit" ? this.samples[this.units].tools.unit : "use");
        else box.value = state.tools?.[name] ?? "";
      }
      const rows = state.rows ?? [];
      while (this.grid.rows.length < Math.min(rows.length + 1, MOST_ROWS)) this.addRow();
      for (const [at, row] of [...this.grid.rows].entries()) {
        for (const box of this.grid.boxes(row)) box.value = rows[at]?.[box.name] ?? "";
        const out = /** @type {HTMLInputElement | null} */ (row.querySelector("[name=out]"));
        if (out) out.checked = rows[at]?.out === true;
      }
      this.noteFocus();
    }

    /** What the box in use holds was not typed there: the next undo takes back the sheet's last change. */
    noteFocus() {
      const at = document.activeElement;
      if (at instanceof HTMLInputElement && this.form.contains(at)) this.atFocus = at.value;
    }

    addRow() {
      const { rows } = this.grid;
      if (rows.length >= MOST_ROWS) return;
      const row = /** @type {HTMLTableRowElement} */ (rows[rows.length - 1].cloneNode(true));
      const number = rows.length + 1;
      row.dataset.row = String(number);
      row.className = "";
      row.cells[0].textContent = String(number);
      for (const box of row.querySelectorAll("input")) {
        box.value = box.type === "checkbox" ? "on" : "";
        box.checked = false;
        box.placeholder = "";
        box.removeAttribute("aria-invalid");
        box.setAttribute("aria-label", (box.getAttribute("aria-label") ?? "").replace(/\d+$/, String(number)));
      }
      for (const cell of row.querySelectorAll(".r-ama, .r-eta")) cell.textContent = "";
      rows[rows.length - 1].after(row);
    }

    // ---- changes, and taking them back -----------------------------------------------------------------------

    /** @param {number} pause */
    changed(pause) {
      this.showWhose();
      this.showUnits();
      this.save();
      const { rows } = this.grid;
      const last = rows[rows.length - 1];
      if (this.grid.boxes(last).some((box) => box.value)) this.addRow();
      clearTimeout(this.quiet);
      this.unsaid = true;
      this.ask(pause);
    }

    save() {
      if (!this.keeping.write(this.state(), this.keep.checked)) this.tell(this.keeping.trouble);
    }

    /** A change is done: it can be taken back from here on. */
    remember() {
      const now = JSON.stringify(this.state());
      if (now === this.before) return;
      this.past.push(this.before);
      if (this.past.length > STEPS_BACK) this.past.shift();
      this.before = now;
      this.undoButton.disabled = false;
    }

    undo() {
      this.remember();
      const state = this.past.pop();
      this.undoButton.disabled = !this.past.length;
      if (!state) return;
      this.before = state;
      this.fill(JSON.parse(state));
      this.changed(0);
    }

    /** @param {{box: HTMLInputElement, text: string}[]} cells */
    pasted(cells) {
      this.remember();
      for (const { box, text } of cells) box.value = text;
      this.noteFocus();
      this.remember();
      this.changed(0);
    }

    clear() {
      this.remember();
      this.guess.begin(this.guess.on);
      this.fill({ units: this.units, predict: this.guess.state });
      this.keep.checked = false;
      this.remember();
      this.changed(0);
      this.keeping.clear();
      this.leftOut = "";
      this.tell("The sheet is empty. Undo brings it back.");
    }

    /** @param {HTMLElement} button */
    mend(button) {
      const row = this.grid.rows[Number(button.dataset.row) - 1];
      const box = row && this.grid.boxes(row).find((it) => it.name === button.dataset.symbol);
      if (!box) return;
      box.value = button.dataset.fill ?? "";
      this.remember();
      this.changed(0);
      box.focus();
      this.atFocus = box.value;
    }

    /** Other units: what is typed keeps its numbers only if the reader says so; the sheet's units are those of its scale. */
    switchUnits() {
      const { units } = this;
      const empty = !Record.touched(this.state());
      if (empty) this.fill({ units, predict: this.guess.state });
      this.showUnits();
      this.remember();
      this.changed(0);
    }

    // ---- predicting first -------------------------------------------------------------------------------------

    predictFirst() {
      this.guess.begin(this.guess.tick.checked);
      this.remember();
      this.changed(0);
      if (this.guess.on) this.guess.box.focus();
    }

    predict() {
      if (!this.guess.commit(this.box("unit").value)) return;
      this.remember();
      this.changed(0);
    }

    decline() {
      this.guess.decline();
      this.remember();
      this.changed(0);
    }

    // ---- asking and showing ---------------------------------------------------------------------------------

    /** @param {any} [more] @returns {any} */
    request(more) {
      const state = this.state();
      const shown = Record.touched(state) ? state : { ...this.samples[state.units], tools: state.tools, predict: state.predict, invented: true };
      return { record: this.key, ...shown, ...more };
    }

    /** @param {number} pause */
    ask(pause) {
      clearTimeout(this.pause);
      const turn = (this.asked += 1);
      this.lookAtEngine();
      this.pause = setTimeout(async () => {
        const answer = await this.send("judge", this.request({ draw: "both" }));
        if (answer && turn === this.asked) this.show(answer);
      }, pause);
    }

    /** @param {string} what questions of one sort overtake each other @param {any} request @returns {Promise<any>} */
    async send(what, request) {
      try {
        return await /** @type {any} */ (window).engine?.ask(`${what} ${this.key}`, request);
      } catch (error) {
        this.tell(/** @type {Error} */ (error).message);
        return null;
      }
    }

    /** @param {any} answer */
    show(answer) {
      this.showWhose();
      this.showUnits();
      const rows = new Map(answer.rows.map((/** @type {any} */ it) => [it.row, it]));
      for (const [at, row] of [...this.grid.rows].entries()) {
        const said = rows.get(at + 1) ?? { state: "", ama: "", eta: "", mark: "" };
        row.className = said.state ? `is-${said.state}` : "";
        renewText(/** @type {HTMLElement} */ (row.querySelector(".r-ama")), said.ama);
        renewText(/** @type {HTMLElement} */ (row.querySelector(".r-eta")), [said.eta, said.mark].filter(Boolean).join(" "));
      }
      this.showErrors(answer);
      this.guess.show(answer);
      renew(this.verdict, answer.html.verdict);
      renew(this.results, answer.html.results);
      for (const it of this.figures) {
        it.figure.hidden = !answer.html[`${it.name}_wide`];
        if (!it.figure.hidden) it.show(answer.html, "both");
      }
      clearTimeout(this.quiet);
      if (this.unsaid) this.quiet = setTimeout(() => this.announce(), QUIET_MS);
    }

    /** Whether the readings are the reader's own or the page's. */
    showWhose() {
      const touched = Record.touched(this.state());
      this.sample.hidden = touched || this.guess.waits;
      this.form.classList.toggle("is-sample", !touched);
    }

    showUnits() {
      const scale = this.box("unit").value;
      const tape = LENGTHS[/** @type {"us" | "si"} */ (this.units)];
      for (const it of /** @type {NodeListOf<HTMLElement>} */ (this.form.querySelectorAll(".unit"))) {
        const { unit, us, si } = it.dataset;
        if (unit) renewText(it, unit === "scale" ? scale : tape);
        else if (us !== undefined) renewText(it, this.units === "us" ? us : (si ?? ""));
      }
      const untouched = this.form.classList.contains("is-sample");
      const sample = untouched ? { ...this.samples[this.units] } : { once: {}, tools: this.samples[this.units].tools, rows: [] };
      for (const box of this.onceBoxes) box.placeholder = sample.once[box.name] ?? "";
      for (const name of TOOLS) if (!(this.box(name) instanceof HTMLSelectElement)) this.box(name).placeholder = sample.tools[name] ?? "";
      if (this.guess.waits) sample.rows = []; // they would give the effort away
      for (const [at, row] of [...this.grid.rows].entries()) {
        for (const box of this.grid.boxes(row)) box.placeholder = sample.rows[at]?.[box.name] ?? "";
      }
    }

    /** @param {any} answer */
    showErrors(answer) {
      const wrong = new Map();
      for (const it of answer.cells) wrong.set(`${it.row} ${it.symbol}`, it);
      for (const [at, row] of [...this.grid.rows].entries()) {
        for (const box of this.grid.boxes(row)) {
          const it = wrong.get(`${at + 1} ${box.name}`);
          tieError(box, it ? `${this.key}-wrong-${answer.cells.indexOf(it)}` : "");
        }
      }
      this.errors.hidden = !answer.cells.length;
      this.errors.replaceChildren(
        ...answer.cells.map((/** @type {any} */ it, /** @type {number} */ at) => {
          const line = document.createElement("li");
          line.id = `${this.key}-wrong-${at}`;
          const head = this.form.querySelector(`#${this.key}-head-${it.symbol}`)?.firstChild?.textContent?.trim() ?? it.symbol;
          const where = document.createElement("strong");
          where.textContent = `Trial ${it.row}, ${head}. ${it.start}`;
          line.append(where, ` ${it.words}`);
          if (it.fill) {
            const button = document.createElement("button");
            button.type = "button";
            Object.assign(button.dataset, { fill: it.fill, row: it.row, symbol: it.symbol });
            button.textContent = `Put in ${it.fill}`;
            line.append(" ", button);
          }
          return line;
        }),
      );
      const named = new Map(answer.errors.map((/** @type {any} */ it) => [it.name, it]));
      for (const place of this.form.querySelectorAll(".r-box .q-error")) {
        const box = place.parentElement?.querySelector("input");
        const problem = box && named.get(box.name);
        /** @type {HTMLElement} */ (place).hidden = !problem;
        renewText(/** @type {HTMLElement} */ (place), problem ? problem.text : "");
        if (problem) box.setAttribute("aria-invalid", "true");
        else box?.removeAttribute("aria-invalid");
      }
    }

    /** Says once, after typing has stopped, what is wrong or what follows. */
    announce() {
      this.unsaid = false;
      this.status.textContent = wrongAloud(this.form) || (this.verdict.querySelector("p")?.textContent ?? "");
    }

    /** @param {string} words */
    tell(words) {
      this.wait.hidden = !words;
      renewText(this.wait, words);
    }

    lookAtEngine() {
      const { engine } = /** @type {any} */ (window);
      if (engine?.state === "ready") this.tell([this.keeping.trouble, this.leftOut].filter(Boolean).join(" "));
      else if (!engine || engine.state === "failed") {
        this.tell(engine?.reason ?? "The sheet cannot judge here. Print it, and work it out by hand.");
      }
    }

    /** The invented readings as if they were typed. */
    fillInSample() {
      this.remember();
      this.fill({ ...this.state(), ...this.samples[this.units] });
      this.remember();
      this.changed(0);
    }

    /** Prints this sheet alone: blank while nothing is typed. */
    async print() {
      if (location.protocol !== "file:") await fetched("share").then(() => Share.onPaper(this.fragment()), () => {});
      printAlone([document.documentElement, "print", this.key], [this.host, "printing", ""]);
    }

    // ---- files ------------------------------------------------------------------------------------------------

    async saveFile() {
      const state = this.state();
      const answer = await this.send("save", { record: this.key, ...state, file: true });
      if (!answer?.file) return;
      const group = state.group.replace(/[^A-Za-z0-9]+/g, "-");
      saveAsFile(group ? `${this.key}-group-${group}.csv` : `${this.key}.csv`, answer.file);
    }

    async openFile() {
      const [file] = this.file.files ?? [];
      this.file.value = "";
      if (!file) return;
      let text;
      try {
        text = await textOf(file);
      } catch (error) {
        this.tell(/** @type {Error} */ (error).message);
        return;
      }
      const answer = await this.send("open", { record: this.key, open: text });
      if (!answer) return;
      const { opened, problems } = answer;
      const said = problems.map((/** @type {any} */ it) => (it.line ? `Line ${it.line}${it.column ? `, column ${it.column}` : ""}: ${it.words}` : it.words));
      if (opened.record && opened.record !== this.key) said.unshift(`This file belongs to another sheet: ${opened.record}.`);
      else if (opened.rows.length || Object.keys(opened.once).length) {
        this.remember();
        this.fill({ ...opened, predict: opened.predict ?? this.guess.state });
        this.remember();
        this.changed(0);
      }
      this.tell(said.length ? `${file.name}. ${said.slice(0, 6).join(" ")}${said.length > 6 ? ` And ${said.length - 6} more.` : ""}` : "");
    }
  }

  customElements.define(
    "record-sheet",
    class extends HTMLElement {
      connectedCallback() {
        const form = this.querySelector("form");
        if (form) this.record = new Record(this, form);
      }

      disconnectedCallback() {
        this.record?.leave();
      }
    },
  );
})();
