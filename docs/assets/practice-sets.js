/*
 * <practice-sets>: the teacher's page. It reads the form, asks the engine for the set, its sheets and its key, and shows
 * them. A class's copy of the site does without this file.
 */
"use strict";

(() => {
  const PAUSE_MS = 400;
  const MOST_SEATS = 40;

  class PracticeSets {
    /** @param {HTMLFormElement} form */
    constructor(form) {
      this.form = form;
      const part = (/** @type {string} */ selector) => /** @type {any} */ (form.querySelector(selector));
      this.part = part;
      this.asked = 0;
      this.changes = 0;
      this.leaving = new AbortController();
      this.listen();
      this.show(0);
    }

    listen() {
      const { form } = this;
      form.addEventListener("submit", (event) => event.preventDefault());
      form.addEventListener("input", ({ target }) => {
        if (!(target instanceof Element && target.closest(".p-ask"))) this.otherSet();
      });
      form.addEventListener("keydown", (event) => {
        if (event.key !== "Enter" || !(event.target instanceof HTMLInputElement)) return;
        event.preventDefault();
        if (event.target.closest(".p-ask")) this.diagnose();
        else this.show(0);
      });
      form.addEventListener("click", ({ target }) => {
        const act = target instanceof HTMLElement ? target.dataset.act : undefined;
        if (act === "share") this.share();
        if (act === "print-key") this.print("key");
        if (act === "print-sheets") this.printSheets();
        if (act === "ask") this.diagnose();
        if (act === "working") this.work();
      });
      const { signal } = this.leaving;
      document.addEventListener("engine-state", () => this.lookAtEngine(), { signal });
    }

    leave() {
      this.leaving.abort();
      clearTimeout(this.pause);
    }

    /** What was worked out, or is being worked out, was of the set before. */
    otherSet() {
      this.changes += 1;
      renew(this.part(".p-worked-part"), "");
      this.show(PAUSE_MS);
    }

    /** @param {string} name */
    text(name) {
      return this.part(`[name="${name}"]`).value.trim();
    }

    /** What the form says. @returns {any} */
    set() {
      const ticked = (/** @type {string} */ name) => [...this.form.querySelectorAll(`[name="${name}"]:checked`)].map((it) => /** @type {HTMLInputElement} */ (it).value);
      const single = ticked("family");
      return {
        set: this.text("set"),
        families: single.length ? single : ticked("machine"),
        level: this.text("level"),
        count: this.text("count"),
        units: this.text("units"),
      };
    }

    seats() {
      const most = Math.min(Math.max(Number.parseInt(this.text("seats"), 10) || 0, 1), MOST_SEATS);
      return Array.from({ length: most }, (_, at) => at + 1);
    }

    /** @param {number} pause */
    show(pause) {
      clearTimeout(this.pause);
      const turn = (this.asked += 1);
      this.pause = setTimeout(async () => {
        const said = await this.send("key", { practice: this.set(), key: this.seats() });
        if (!said || turn !== this.asked) return;
        this.showProblems(said);
        this.part(".p-key-part").hidden = false;
        renew(this.part(".p-key-table"), said.html.key);
        renew(this.part(".p-key-slips"), said.html.slips);
        if (this.sharing) this.shared?.show(...this.shareOf(said.practice));
        else if (this.shared && !this.shared.place.hidden) this.shared.fill(...this.shareOf(said.practice));
        this.sharing = false;
      }, pause);
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

    /** Opens the link with the next key that is shown, so that the two are of one set. */
    async share() {
      await fetched("share");
      this.shared ??= new Share(this.part(".copied"));
      this.sharing = true;
      this.show(0);
    }

    /** What Share shows: the set as calc understood it, on the students' page. @param {any} set @returns {[string, Words, string]} */
    shareOf({ link, set, families, level, count, units }) {
      const machines = [...this.form.querySelectorAll("[name=machine]")].filter((it) => families.includes(/** @type {HTMLInputElement} */ (it).value));
      const names = machines.map((it) => /** @type {HTMLInputElement} */ (it).labels?.[0].textContent?.trim() ?? "");
      const single = families.length - names.length;
      if (single) names.push(single === 1 ? "1 single problem" : `${single} single problems`);
      const depth = [...this.part("[name=level]").options].find((it) => it.value === String(level)).textContent;
      const much = count === 1 ? "1 problem" : `${count} problems`;
      const holds = [`set code ${set}`, names.join(", "), `level ${depth}`, much, units === "us" ? "US units" : "SI units"];
      return [link, { holds, lacks: "a seat number, answers, the key and names" }, "practice.html"];
    }

    async diagnose() {
      const { changes } = this;
      const mark = { question: Number(this.text("question")), typed: this.text("answer"), misses: 0 };
      const said = await this.send("mark", { practice: { ...this.set(), seat: this.text("seat") }, mark });
      if (!said || changes !== this.changes) return;
      const { start, words } = said.mark;
      const strong = document.createElement("strong");
      strong.textContent = start || "Give a seat, a problem and what was written.";
      this.part(".p-said").replaceChildren(strong, words ? ` ${words}` : "");
    }

    async work() {
      const { changes } = this;
      const said = await this.send("working", { practice: { ...this.set(), seat: this.text("seat") }, key: [] });
      if (changes !== this.changes) return;
      if (said?.html.worked) renew(this.part(".p-worked-part"), said.html.worked);
      else this.part(".p-said").textContent = "Give a seat number from 1 to 40.";
    }

    async printSheets() {
      const { changes } = this;
      const said = await this.send("sheets", { practice: this.set(), sheets: this.seats() });
      if (!said || changes !== this.changes) return;
      renew(this.part(".p-sheets"), said.html.sheets);
      this.print("sheets");
    }

    /** @param {string} what is printed alone */
    print(what) {
      printAlone([document.documentElement, "practice", what]);
    }

    /** @param {string} slot @param {object} request @returns {Promise<any>} */
    async send(slot, request) {
      const { engine } = /** @type {any} */ (window);
      if (engine && engine.state !== "ready" && engine.state !== "failed") this.tell("Getting the problems ready…");
      try {
        const answer = await engine?.ask(`sets ${slot}`, request);
        if (answer) this.tell("");
        return answer ?? null;
      } catch (error) {
        this.tell(/** @type {Error} */ (error).message);
        return null;
      }
    }

    lookAtEngine() {
      const { engine } = /** @type {any} */ (window);
      if (!engine || engine.state === "failed") this.tell("The problems cannot be drawn here.");
    }

    /** @param {string} words */
    tell(words) {
      this.part(".wait").hidden = !words;
      renewText(this.part(".wait"), words);
      if (words) renewText(this.part(".p-aloud"), words);
    }
  }

  customElements.define(
    "practice-sets",
    class extends HTMLElement {
      connectedCallback() {
        const form = this.querySelector("form");
        if (form) this.sets = new PracticeSets(form);
      }

      disconnectedCallback() {
        this.sets?.leave();
      }
    },
  );
})();
