/*
 * <demonstration-planner>: a task and a kit in boxes, the engine's plan for them, and one card to print.
 * It reads boxes, asks, and shows what comes back; no number is computed here.
 */
"use strict";

(() => {
  const PAUSE_MS = 250;
  const QUIET_MS = 900;
  const BARE = /^[\d\s.,/½¼¾⅛⅜⅝⅞-]+$/;

  class Planner {
    /** @param {HTMLElement} host @param {HTMLFormElement} form */
    constructor(host, form) {
      this.host = host;
      this.form = form;
      this.keeping = new Keeping("planner");
      this.asked = 0;
      this.leaving = new AbortController();
      const part = (/** @type {string} */ selector) => /** @type {any} */ (form.querySelector(selector));
      this.part = part;
      this.errors = part(".r-errors");
      this.wait = part(".wait");
      this.status = part("p[role=status]");
      this.file = part("input[type=file]");
      this.keep = part("input[name=keep]");
      this.place = part(".p-card-place");
      this.card = part(".p-card");
      this.kinds = /** @type {HTMLElement[]} */ ([...form.querySelectorAll(".p-kind")]);
      /** Where each calculator stands, as the build has written it. @type {Map<string, string>} */
      this.pages = new Map(
        [...part("template[data-leads]").content.querySelectorAll("a")].map((link) => {
          const [page, key] = link.getAttribute("href").split("#c=");
          return [key, page];
        }),
      );
      this.garden = this.kit();
      this.gardenName = part("[name=kit-name]").value;
      this.listen();
      const kept = this.keeping.read();
      this.keep.checked = this.keeping.long;
      if (kept) this.fill(kept);
      this.units = this.chosenUnits;
      this.showChoices();
      this.ask(0);
    }

    listen() {
      const { form } = this;
      const { signal } = this.leaving;
      form.addEventListener("submit", (event) => event.preventDefault());
      form.addEventListener("input", ({ target }) => {
        if (target === this.file || target === this.keep) return;
        if (target instanceof HTMLInputElement && target.name === "units") this.switchUnits();
        this.changed();
      });
      form.addEventListener("change", ({ target }) => {
        if (target === this.file) this.openFile();
        else if (target === this.keep) this.save();
      });
      form.addEventListener("click", ({ target }) => {
        if (!(target instanceof HTMLElement)) return;
        const { act, card } = target.dataset;
        if (card !== undefined) this.showCard(Number(card));
        if (act === "add") this.add(/** @type {HTMLElement} */ (target.closest(".p-kind")));
        if (act === "remove") this.remove(target);
        if (act === "open") this.file.click();
        if (act === "save") this.saveFile();
        if (act === "garden") this.setKit(this.garden, this.gardenName);
        if (act === "empty") this.setKit({}, "");
        if (act === "print") this.print();
        if (act === "close") {
          this.closeCard();
          this.from?.focus();
        }
      });
      document.addEventListener("engine-state", () => this.lookAtEngine(), { signal });
    }

    leave() {
      this.leaving.abort();
      clearTimeout(this.pause);
      clearTimeout(this.quiet);
    }

    // ---- what stands in the form ---------------------------------------------------------------------------------

    get chosenUnits() {
      return this.part("[name=units]:checked").value;
    }

    /** @returns {(HTMLInputElement | HTMLSelectElement)[]} the boxes and choices of the task */
    get taskBoxes() {
      return /** @type {any} */ ([...this.form.querySelectorAll('[id^="plan-"]:is(input, select):not([name=load])')]);
    }

    /** @returns {Record<string, Record<string, string>[]>} kind to its things, each field to text */
    kit() {
      const found = this.kinds.map((kind) => {
        const rows = [...kind.querySelectorAll("tbody tr")].map((row) =>
          Object.fromEntries([...row.querySelectorAll("input")].map((box) => [box.name, box.value]).filter(([, text]) => text.trim())),
        );
        return [kind.dataset.kind, rows];
      });
      return Object.fromEntries(found);
    }

    state() {
      const plan = Object.fromEntries(this.taskBoxes.map((box) => [box.name, box.value]));
      return { units: this.chosenUnits, name: this.part("[name=load]").value, kitName: this.part("[name=kit-name]").value, plan, kit: this.kit() };
    }

    /** @param {any} state */
    fill(state) {
      for (const box of this.form.querySelectorAll("[name=units]")) {
        /** @type {HTMLInputElement} */ (box).checked = /** @type {HTMLInputElement} */ (box).value === state.units;
      }
      this.part("[name=load]").value = state.name ?? "";
      for (const box of this.taskBoxes) if (state.plan?.[box.name] !== undefined) box.value = state.plan[box.name];
      this.fillKit(state.kit ?? {}, state.kitName ?? "");
      this.showUnits();
    }

    /** @param {Record<string, Record<string, string>[]>} kit @param {string} name */
    fillKit(kit, name) {
      this.part("[name=kit-name]").value = name;
      for (const kind of this.kinds) {
        const body = /** @type {HTMLElement} */ (kind.querySelector("tbody"));
        body.replaceChildren();
        for (const row of kit[kind.dataset.kind ?? ""] ?? []) this.newRow(kind, row);
      }
    }

    /** @param {HTMLElement} kind @param {Record<string, string>} row */
    newRow(kind, row) {
      const body = /** @type {HTMLElement} */ (kind.querySelector("tbody"));
      const model = /** @type {HTMLTemplateElement} */ (kind.querySelector("template")).content.querySelector("tr");
      const added = /** @type {HTMLElement} */ (/** @type {HTMLElement} */ (model).cloneNode(true));
      body.append(added);
      for (const box of added.querySelectorAll("input")) box.value = row[box.name] ?? "";
      this.number(body);
      return added;
    }

    /** Names the things of a kind by their place, for readers who cannot see the table. @param {HTMLElement} body */
    number(body) {
      [...body.children].forEach((row, at) => {
        for (const it of row.querySelectorAll("[aria-label]")) {
          it.setAttribute("aria-label", (it.getAttribute("aria-label") ?? "").replace(/\d+$/, String(at + 1)));
        }
      });
    }

    // ---- changes ----------------------------------------------------------------------------------------------------

    /** @param {HTMLElement} kind */
    add(kind) {
      this.newRow(kind, {}).querySelector("input")?.focus();
      this.changed();
    }

    /** @param {HTMLElement} button */
    remove(button) {
      const row = /** @type {HTMLElement} */ (button.closest("tr"));
      const body = /** @type {HTMLElement} */ (row.parentElement);
      const add = /** @type {HTMLElement} */ (row.closest(".p-kind")?.querySelector("[data-act=add]"));
      row.remove();
      this.number(body);
      add.focus();
      this.changed();
    }

    /** @param {Record<string, Record<string, string>[]>} kit @param {string} name */
    setKit(kit, name) {
      this.fillKit(kit, name);
      this.changed();
    }

    changed() {
      this.showChoices();
      this.closeCard();
      this.save();
      clearTimeout(this.quiet);
      this.unsaid = true;
      this.ask(PAUSE_MS);
    }

    save() {
      if (!this.keeping.write(this.state(), this.keep.checked)) this.tell(this.keeping.trouble);
    }

    /** Other units: a number without a unit keeps its size, so it gets the unit that it had. */
    switchUnits() {
      const before = /** @type {"us" | "si"} */ (this.units);
      this.units = this.chosenUnits;
      const give = (/** @type {HTMLInputElement} */ box, /** @type {string} */ unit) => {
        if (unit && box.value.trim() && BARE.test(box.value)) box.value = `${box.value.trim()} ${unit}`;
      };
      for (const box of this.taskBoxes) {
        const unit = /** @type {HTMLElement | null} */ (box.closest(".r-box")?.querySelector(".unit"))?.dataset[before];
        if (box instanceof HTMLInputElement) give(box, unit ?? "");
      }
      for (const kind of this.kinds) {
        const heads = [...kind.querySelectorAll("thead th")].map((head) => /** @type {HTMLElement | null} */ (head.querySelector(".unit"))?.dataset[before] ?? "");
        for (const row of kind.querySelectorAll("tbody tr")) {
          row.querySelectorAll("input").forEach((box, at) => give(box, heads[at]));
        }
      }
      this.showUnits();
    }

    showUnits() {
      const units = /** @type {"us" | "si"} */ (this.chosenUnits);
      for (const it of /** @type {NodeListOf<HTMLElement>} */ (this.form.querySelectorAll(".unit"))) renewText(it, it.dataset[units] ?? "");
      for (const box of this.taskBoxes) if (box instanceof HTMLInputElement && box.dataset[units] !== undefined) box.placeholder = box.dataset[units] ?? "";
    }

    showChoices() {
      const own = this.part("[name=surfaces]").value === "own";
      const { value: job } = this.part("[name=job]");
      for (const it of this.form.querySelectorAll("[data-job]")) /** @type {HTMLElement} */ (it).hidden = /** @type {HTMLElement} */ (it).dataset.job !== job;
      for (const it of this.form.querySelectorAll(".p-own")) /** @type {HTMLElement} */ (it).hidden = !own;
      const kit = this.kit();
      renewText(this.part(".p-kit-count"), String(Object.values(kit).reduce((sum, rows) => sum + rows.length, 0)));
      renewText(this.part(".p-kit-name"), this.part("[name=kit-name]").value || "no name");
    }

    // ---- asking and showing ------------------------------------------------------------------------------------------

    request() {
      const { units, name, plan, kit } = this.state();
      return { plan, kit, units, name };
    }

    /** @param {number} pause */
    ask(pause) {
      clearTimeout(this.pause);
      const turn = (this.asked += 1);
      this.lookAtEngine();
      this.pause = setTimeout(async () => {
        const request = this.request();
        const answer = await this.send("plan", request);
        if (!answer || turn !== this.asked) return;
        this.answered = request;
        this.show(answer);
      }, pause);
    }

    /** @param {string} what questions of one sort overtake each other @param {any} request @returns {Promise<any>} */
    async send(what, request) {
      try {
        return await /** @type {any} */ (window).engine?.ask(`planner ${what}`, request);
      } catch (error) {
        this.tell(/** @type {Error} */ (error).message);
        return null;
      }
    }

    /** @param {any} answer */
    show(answer) {
      this.showErrors(answer);
      renew(this.part(".p-say"), answer.html.say);
      renew(this.part(".p-options"), answer.html.options);
      renew(this.part(".p-refusals"), answer.html.refusals);
      this.part(".p-no").hidden = !answer.html.refusals;
      for (const link of this.form.querySelectorAll(".p-options a.lead")) {
        const fragment = (link.getAttribute("href") ?? "").split("#")[1];
        const key = /^c=([\w-]+)/.exec(fragment)?.[1] ?? "";
        link.setAttribute("href", `${this.pages.get(key) ?? ""}#${fragment}`);
      }
      this.form.dataset.shown = String(Number(this.form.dataset.shown ?? 0) + 1);
      clearTimeout(this.quiet);
      if (this.unsaid) this.quiet = setTimeout(() => this.announce(), QUIET_MS);
    }

    /** Says once, after typing has stopped, what is wrong or what follows. */
    announce() {
      this.unsaid = false;
      this.status.textContent = wrongAloud(this.form) || (this.part(".p-say p")?.textContent ?? "");
    }

    /** @param {any} answer */
    showErrors(answer) {
      const wrong = new Map(answer.errors.map((/** @type {any} */ it) => [it.symbol, it]));
      for (const box of this.taskBoxes) {
        const said = wrong.get(box.name);
        const place = this.form.querySelector(`#plan-${box.name}-error`);
        if (!(place instanceof HTMLElement)) continue;
        place.hidden = !said;
        renewText(place, said ? said.text : "");
        if (said) box.setAttribute("aria-invalid", "true");
        else box.removeAttribute("aria-invalid");
      }
      const lines = answer.problems.map((/** @type {any} */ it) => {
        const kind = this.kinds.find((each) => each.dataset.kind === it.kind);
        const title = kind?.querySelector("h3")?.textContent ?? it.kind;
        return `${title}, number ${it.index + 1}. ${it.words}`;
      });
      this.showLines(lines);
      for (const box of this.form.querySelectorAll(".p-kind [aria-invalid]")) tieError(box, "");
      answer.problems.forEach((/** @type {any} */ it, /** @type {number} */ at) => {
        const row = this.kinds.find((each) => each.dataset.kind === it.kind)?.querySelectorAll("tbody tr")[it.index];
        const box = row?.querySelector(`[name="${it.field}"]`);
        if (box) tieError(box, `plan-wrong-${at}`);
      });
    }

    /** @param {string[]} lines */
    showLines(lines) {
      this.errors.hidden = !lines.length;
      const shown = lines.length > 8 ? [...lines.slice(0, 8), `And ${lines.length - 8} more.`] : lines;
      this.errors.replaceChildren(
        ...shown.map((words, at) => {
          const line = document.createElement("li");
          line.id = `plan-wrong-${at}`;
          line.textContent = words;
          return line;
        }),
      );
    }

    /** @param {string} words */
    tell(words) {
      this.wait.hidden = !words;
      renewText(this.wait, words);
    }

    lookAtEngine() {
      const { engine } = /** @type {any} */ (window);
      if (engine?.state === "ready") this.tell(this.keeping.trouble);
      else if (!engine || engine.state === "failed") this.tell(engine?.reason ?? "The planner cannot run here. The plan below is for the garden’s kit.");
    }

    // ---- the card ----------------------------------------------------------------------------------------------------

    /** The card of a listed way: from the task that the list was made for, unless the task changes before it is there. @param {number} at */
    async showCard(at) {
      const turn = this.asked;
      const answer = await this.send("card", { ...this.answered, card: at });
      if (!answer?.html.card || turn !== this.asked) return;
      this.from = this.form.querySelector(`[data-card="${at}"]`);
      this.card.innerHTML = answer.html.card;
      const place = /** @type {HTMLElement} */ (this.card.querySelector("[data-cautions]"));
      const list = document.createElement("ul");
      const said = new Set();
      for (const key of (place.dataset.cautions ?? "").split(" ")) {
        for (const line of this.part(`template[data-caution="${key}"]`).content.cloneNode(true).children) {
          if (!said.has(line.textContent)) list.append(line.cloneNode(true));
          said.add(line.textContent);
        }
      }
      const head = document.createElement("h3");
      head.textContent = "Cautions";
      place.append(head, list, this.part("template[data-caution-end]").content.cloneNode(true));
      this.place.hidden = false;
      this.place.focus({ preventScroll: true });
      this.place.scrollIntoView({ block: "start" });
    }

    closeCard() {
      this.place.hidden = true;
      this.card.replaceChildren();
    }

    /** Prints the card alone. */
    print() {
      printAlone([document.documentElement, "print", "planner"], [this.host, "printing", ""]);
    }

    // ---- kit files ---------------------------------------------------------------------------------------------------

    async saveFile() {
      const { units, kit, kitName } = this.state();
      const answer = await this.send("save", { write_kit: kit, name: kitName, units });
      if (answer?.file) saveAsFile(`${kitName.replace(/[^A-Za-z0-9]+/g, "-") || "kit"}.toml`, answer.file, "application/toml");
    }

    async openFile() {
      const [file] = this.file.files ?? [];
      this.file.value = "";
      if (!file) return;
      let text;
      try {
        text = await textOf(file, "a kit", "Save the kit as TOML.");
      } catch (error) {
        this.tell(/** @type {Error} */ (error).message);
        return;
      }
      const answer = await this.send("open", { kit_file: text });
      if (!answer) return;
      const said = answer.problems.map((/** @type {any} */ it) => (it.line ? `Line ${it.line}: ${it.words}` : it.words));
      if (Object.keys(answer.kit).length) {
        this.fill({ ...this.state(), units: answer.units, kitName: answer.name, kit: answer.kit });
        this.units = this.chosenUnits;
        this.changed();
      }
      this.tell(said.length ? `${file.name}. ${said.slice(0, 6).join(" ")}${said.length > 6 ? ` And ${said.length - 6} more.` : ""}` : "");
    }
  }

  customElements.define(
    "demonstration-planner",
    class extends HTMLElement {
      connectedCallback() {
        const form = this.querySelector("form");
        if (form) this.planner = new Planner(this, form);
      }

      disconnectedCallback() {
        this.planner?.leave();
      }
    },
  );
})();
