/*
 * <practice-set>: a student's problems, one after the other. It reads boxes, asks the engine, and shows what comes back:
 * no number is drawn, computed or compared here.
 */
"use strict";

(() => {
  const STATES = { right: "right", open: "working shown", miss: "not yet right" };

  /**
   * @typedef {{typed: string, tries: number, misses: number, state: string, start: string, words: string, html: string}} Told
   */

  class PracticeSet {
    /** @param {HTMLFormElement} form */
    constructor(form) {
      this.form = form;
      this.keeping = new Keeping("practice");
      const part = (/** @type {string} */ selector) => /** @type {any} */ (form.querySelector(selector));
      this.part = part;
      this.figure = new Figure(part("figure"));
      this.keep = part("input[name=keep]");
      this.leaving = new AbortController();
      /** @type {any} the set as it was asked for */
      this.set = null;
      /** @type {any[]} */
      this.questions = [];
      /** @type {Record<string, Told>} */
      this.told = {};
      this.at = 1;
      /** @type {any} what the link says, once the engine has read it */
      this.given = null;
      /** How many times a set was asked for: whoever asked before has been overtaken. */
      this.asked = 0;
      this.listen();
      this.open();
    }

    listen() {
      const { form } = this;
      form.addEventListener("submit", (event) => event.preventDefault());
      form.addEventListener("keydown", (event) => {
        if (event.key !== "Enter" || !(event.target instanceof HTMLInputElement) || event.target === this.keep) return;
        event.preventDefault();
        if (event.target.name === "answer") this.check();
        else this.start();
      });
      form.addEventListener("click", ({ target }) => {
        const act = target instanceof HTMLElement ? target.dataset.act : undefined;
        if (act === "start") this.start();
        if (act === "check") this.check();
        if (act === "hint") this.hint();
        if (act === "next") this.next();
        if (act === "go") this.go(Number(/** @type {HTMLElement} */ (target).dataset.question));
        if (act === "print") this.print();
        if (act === "save") this.save();
        if (act === "clear") this.clear();
      });
      this.keep.addEventListener("change", () => this.remember());
      const { signal } = this.leaving;
      document.addEventListener("engine-state", () => this.lookAtEngine(), { signal });
      addEventListener("hashchange", () => /[#&]p=/.test(location.hash) && this.open(), { signal }); // a jump within the page, as by its skip link, is no other set
    }

    leave() {
      this.leaving.abort();
    }

    // ---- which set ---------------------------------------------------------------------------------------------

    /** The set in the address, or the one that was being worked on. */
    async open() {
      const turn = ++this.asked;
      const kept = this.keeping.read();
      this.filled = this.fill(kept);
      await this.filled;
      if (!this.given || turn !== this.asked) return; // the reader may have been quicker
      const same = kept && PracticeSet.sameSet(kept.set, this.given);
      this.box("seat").value ||= this.given.seat || (same ? kept.set.seat : "");
      const seat = this.box("seat").value;
      if (seat) await this.begin({ ...this.given, seat }, same ? kept : null);
    }

    /** Put into the boxes what the link says. @param {any} kept */
    async fill(kept) {
      this.given = null;
      this.keep.checked = this.keeping.long;
      this.link = /[#&]p=/.test(location.hash) ? location.hash : (kept?.link ?? "");
      const said = await this.send("settings", { practice: { link: this.link } });
      if (!said) return;
      this.given = said.practice;
      this.box("set").value = this.given.set;
      this.box("units").value = this.given.units;
      this.box("level").value = String(this.given.level);
      if (this.given.families.length === 1) this.box("machine").value = this.given.families[0];
      for (const it of this.form.querySelectorAll(".p-free")) /** @type {HTMLElement} */ (it).hidden = Boolean(this.link);
      this.showProblems(said);
    }

    /** @param {any} a @param {any} b */
    static sameSet(a, b) {
      const whole = (/** @type {any} */ it) => JSON.stringify([it.set, it.families, it.level, it.count, it.units]);
      return whole(a) === whole(b) && (!b.seat || Number(a.seat) === Number(b.seat));
    }

    /** @param {string} name @returns {HTMLInputElement} */
    box(name) {
      return this.part(`[name="${name}"]`);
    }

    /** The reader gave a seat, or changed the set; the link's own settings come first, whoever is quicker. */
    async start() {
      const turn = ++this.asked;
      await this.filled;
      if (turn !== this.asked || !this.given) return;
      const typed = { set: this.box("set").value, seat: this.box("seat").value };
      const free = { families: [this.box("machine").value], level: this.box("level").value, units: this.box("units").value };
      await this.begin({ ...(this.link ? this.given : free), ...typed }, null);
    }

    /** @param {any} asked @param {any} kept */
    async begin(asked, kept) {
      const turn = ++this.asked;
      const said = await this.send("questions", { practice: asked });
      if (!said || turn !== this.asked) return;
      this.showProblems(said);
      this.set = said.practice;
      this.questions = said.questions;
      this.told = kept?.told ?? {};
      this.about(said);
      this.showOwnWords(said.prompts);
      for (const name of ["p-numbers", "p-question", "p-own-words", "p-summary"]) this.part(`.${name}`).hidden = !this.questions.length;
      for (const act of ["print", "save"]) this.part(`[data-act=${act}]`).disabled = !this.questions.length;
      if (!this.questions.length) {
        if (!said.problems.length) this.tell("Type your seat number, then press Start.");
        return;
      }
      this.tell("");
      this.go(kept?.at ?? 1, !kept);
    }

    /** @param {any} said */
    about(said) {
      const { set, seat, units, count } = said.practice;
      const about = this.part(".p-about");
      about.hidden = !seat;
      about.textContent = `Set ${set}, seat ${seat}: ${count} problems, ${said.machines.join(", ")}, ${units === "us" ? "US" : "SI"} units.`;
    }

    /** @param {any} said */
    showProblems(said) {
      const list = this.part(".r-errors");
      list.hidden = !said.problems.length;
      list.replaceChildren(
        ...said.problems.map((/** @type {any} */ it) => {
          const line = document.createElement("li");
          line.textContent = it.text;
          return line;
        }),
      );
      renewText(this.part(".p-aloud"), wrongAloud(this.form));
    }

    /** @param {{machine: string, prompts: string[]}[]} groups */
    showOwnWords(groups) {
      const place = this.part(".p-own-words div");
      place.replaceChildren(
        ...groups.flatMap(({ machine, prompts }) => {
          const more = document.createElement("details");
          const head = document.createElement("summary");
          const list = document.createElement("ol");
          more.className = "level";
          head.textContent = machine;
          list.className = "prompts";
          list.append(
            ...prompts.map((text) => {
              const line = document.createElement("li");
              line.textContent = text;
              return line;
            }),
          );
          more.append(head, list);
          return [more];
        }),
      );
    }

    // ---- one problem --------------------------------------------------------------------------------------------

    /** @param {number} question @param {boolean} [quiet] leave the focus where it is */
    async go(question, quiet = false) {
      const count = this.questions.length;
      this.at = ((question - 1 + count) % count) + 1;
      const it = this.questions[this.at - 1];
      const head = this.part("#practice-question");
      head.textContent = `Problem ${this.at} of ${count}, ${it.machine.toLowerCase()}`;
      this.part(".p-text").textContent = it.text;
      const name = `${it.wanted.charAt(0).toUpperCase()}${it.wanted.slice(1)}`;
      this.part("label[for=practice-answer]").textContent = name;
      this.box("answer").value = this.told[this.at]?.typed ?? "";
      this.box("answer").placeholder = it.unit ? "number and unit" : "a number";
      this.showTold();
      this.showNumbers();
      this.remember();
      this.figure.figure.hidden = true;
      if (!quiet) head.focus({ preventScroll: false });
      if (!it.picture) return;
      const { at, told } = this;
      const said = await this.send("picture", { practice: this.set, picture: at });
      if (!said || !this.isAt(at, told) || !said.html.machine_wide) return;
      this.figure.figure.hidden = false;
      this.figure.show(said.html, "both");
    }

    /**
     * Whether the reader is still at this problem of the same set, and has not cleared it.
     * @param {number} at @param {Record<string, Told>} told
     */
    isAt(at, told) {
      return at === this.at && told === this.told;
    }

    /** On to the next problem that is not done; when all are, to the summary. */
    next() {
      const count = this.questions.length;
      const after = Array.from({ length: count }, (_, step) => ((this.at + step) % count) + 1);
      const open = after.find((question) => !["right", "open"].includes(this.told[question]?.state));
      if (open) this.go(open);
      else this.part("#practice-summary").focus();
    }

    async check() {
      const { at, told } = this;
      const before = told[at];
      const typed = this.box("answer").value;
      const mark = { question: at, typed, misses: before?.state === "right" ? 0 : (before?.misses ?? 0) };
      const said = (await this.send("mark", { practice: this.set, mark }))?.mark;
      if (!said || told !== this.told) return;
      const { state, start, words, html, misses } = said;
      const here = this.isAt(at, told); // the reader may have gone on to another problem
      if (state === "unread") {
        if (!here) return;
        this.say(start, words);
        this.box("answer").setAttribute("aria-invalid", "true");
        return;
      }
      const done = before?.state === "right" || before?.state === "open";
      const reached = done ? before.state : state === "right" ? "right" : said.open ? "open" : "miss";
      told[at] = { typed, tries: (before?.tries ?? 0) + (done ? 0 : 1), misses, state: reached, start, words, html: html || before?.html || "" };
      if (here) this.showTold();
      this.showNumbers();
      this.remember();
      if (here && state === "right") this.part("[data-act=next]").focus();
    }

    async hint() {
      const { at, told } = this;
      const misses = told[at]?.misses ?? 0;
      const said = (await this.send("hint", { practice: this.set, mark: { question: at, typed: "0", misses, hint: true } }))?.mark;
      if (said && this.isAt(at, told) && !this.part(".p-working").childElementCount) renew(this.part(".p-working"), said.html);
    }

    showTold() {
      const told = this.told[this.at];
      this.box("answer").removeAttribute("aria-invalid");
      this.part(".p-said").className = `p-said${told ? ` is-${told.state}` : ""}`;
      this.say(told?.start ?? "", told?.words ?? "");
      renew(this.part(".p-working"), told?.html ?? "");
    }

    /** @param {string} start @param {string} words */
    say(start, words) {
      const strong = document.createElement("strong");
      strong.textContent = start;
      this.part(".p-said").replaceChildren(strong, words ? ` ${words}` : "");
    }

    /** The problems' numbers, each with how it stands; and the summary. */
    showNumbers() {
      const numbers = this.part(".p-numbers");
      numbers.replaceChildren(
        ...this.questions.map(({ question }) => {
          const line = document.createElement("li");
          const button = document.createElement("button");
          const state = this.state(question);
          button.type = "button";
          button.dataset.act = "go";
          button.dataset.question = String(question);
          button.className = `is-${this.told[question]?.state ?? "new"}`;
          button.textContent = `${question}${this.told[question]?.state === "right" ? " ✓" : ""}`;
          button.setAttribute("aria-label", `Problem ${question}, ${state || "not tried"}`);
          if (question === this.at) button.setAttribute("aria-current", "step");
          line.append(button);
          return line;
        }),
      );
      this.part(".p-table caption").textContent = this.part(".p-about").textContent;
      this.part(".p-table tbody").replaceChildren(
        ...this.rows().map(([question, text, ...rest]) => {
          const row = document.createElement("tr");
          const head = document.createElement("th");
          head.scope = "row";
          head.textContent = `${question}. ${text}`;
          row.append(head);
          for (const cell of rest) row.insertCell().textContent = cell;
          return row;
        }),
      );
    }

    /** @param {number} question */
    state(question) {
      return STATES[/** @type {keyof STATES} */ (this.told[question]?.state)] ?? "";
    }

    /** @returns {string[][]} */
    rows() {
      return this.questions.map(({ question, text }) => {
        const told = this.told[question];
        return [String(question), text, told?.typed ?? "", String(told?.tries ?? 0), this.state(question) || "not tried"];
      });
    }

    // ---- handing in, keeping --------------------------------------------------------------------------------------

    save() {
      const { set, seat, units } = this.set;
      const head = [["set", set], ["seat", String(seat)], ["units", units], []];
      const rows = [...head, ["problem", "text", "last answer", "tries", "result"], ...this.rows()];
      saveAsFile(`practice-${set}-seat-${seat}.csv`, asCsv(rows));
    }

    print() {
      printAlone([document.documentElement, "practice", "summary"]);
    }

    remember() {
      if (!this.set) return;
      const progress = { link: this.link, set: this.set, told: this.told, at: this.at };
      if (!this.keeping.write(progress, this.keep.checked)) this.tell(this.keeping.trouble);
    }

    clear() {
      this.keeping.clear();
      this.keep.checked = false;
      this.told = {};
      if (this.questions.length) this.go(1);
      this.keeping.clear();
    }

    // ---- the engine ---------------------------------------------------------------------------------------------

    /** @param {string} slot @param {object} request @returns {Promise<any>} */
    async send(slot, request) {
      const { engine } = /** @type {any} */ (window);
      if (engine && engine.state !== "ready" && engine.state !== "failed") this.tell("Getting the problems ready…");
      try {
        const answer = await engine?.ask(`practice ${slot}`, request);
        if (answer) this.tell("");
        else if (!engine) this.lookAtEngine();
        return answer ?? null;
      } catch (error) {
        this.tell(/** @type {Error} */ (error).message);
        return null;
      }
    }

    lookAtEngine() {
      const { engine } = /** @type {any} */ (window);
      if (!engine || engine.state === "failed") this.tell("The problems cannot be drawn here. Ask your teacher for a printed sheet.");
    }

    /** @param {string} words */
    tell(words) {
      this.part(".wait").hidden = !words;
      renewText(this.part(".wait"), words);
      if (words) renewText(this.part(".p-aloud"), words);
    }
  }

  customElements.define(
    "practice-set",
    class extends HTMLElement {
      connectedCallback() {
        const form = this.querySelector("form");
        if (form) this.practice = new PracticeSet(form);
      }

      disconnectedCallback() {
        this.practice?.leave();
      }
    },
  );
})();
