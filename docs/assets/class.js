/*
 * <class-results>: the record sheets of a class, dropped or chosen, each read by the engine, then put together.
 * Files stay on this device. A file that cannot be read is named with its lines; the others count.
 */
"use strict";

(() => {
  class ClassResults {
    /** @param {HTMLFormElement} form */
    constructor(form) {
      this.form = form;
      this.keeping = new Keeping("class-results");
      /** @type {{file: string, groups: any[], problems: string[]}[]} */
      this.files = this.keeping.read()?.files ?? [];
      this.turn = 0;
      /** Counts what was emptied: files read for an emptied table are dropped. */
      this.emptied = 0;
      this.readings = 0;
      const part = (/** @type {string} */ selector) => /** @type {any} */ (form.querySelector(selector));
      this.file = part("input[type=file]");
      this.drop = part("[data-drop]");
      this.errors = part(".r-errors");
      this.say = part(".class-say");
      this.table = part(".class-table");
      this.wait = part(".wait");
      this.status = part("p[role=status]");
      this.figure = new Figure(part("figure"));
      this.leaving = new AbortController();
      this.listen();
      this.lookAtEngine();
      this.show();
    }

    listen() {
      const { form } = this;
      const { signal } = this.leaving;
      document.addEventListener("engine-state", () => this.lookAtEngine(), { signal });
      form.addEventListener("submit", (event) => event.preventDefault());
      form.addEventListener("click", ({ target }) => {
        const act = target instanceof HTMLElement ? target.dataset.act : undefined;
        if (act === "choose") this.file.click();
        if (act === "print") print();
        if (act === "save") this.save();
        if (act === "clear") this.clear();
      });
      this.file.addEventListener("change", () => {
        this.take([...this.file.files]);
        this.file.value = "";
      });
      const over = (/** @type {DragEvent} */ event) => {
        if (![...(event.dataTransfer?.types ?? [])].includes("Files")) return;
        event.preventDefault();
        this.drop.classList.toggle("is-over", event.type === "dragover");
      };
      for (const type of ["dragover", "dragleave"]) addEventListener(type, /** @type {any} */ (over), { signal });
      addEventListener(
        "drop",
        (event) => {
          over(event);
          this.take([...(event.dataTransfer?.files ?? [])]);
        },
        { signal },
      );
    }

    leave() {
      this.leaving.abort();
    }

    /** @param {File[]} files */
    async take(files) {
      const { emptied } = this;
      for (const [at, file] of files.entries()) {
        this.tell(files.length > 3 ? `Reading file ${at + 1} of ${files.length}…` : "");
        const read = await this.read(file);
        if (emptied !== this.emptied) return;
        const known = this.files.findIndex((it) => it.file === file.name);
        if (known >= 0) this.files[known] = read; // the same sheet, saved again
        else this.files.push(read);
      }
      this.tell("");
      this.keeping.write({ files: this.files }, false);
      await this.show();
    }

    /** @param {File} file */
    async read(file) {
      try {
        const text = await textOf(file);
        const { groups, problems } = await this.ask(`file ${(this.readings += 1)}`, { group_file: text, name: file.name });
        return { file: file.name, groups, problems };
      } catch (error) {
        return { file: file.name, groups: [], problems: [/** @type {Error} */ (error).message] };
      }
    }

    /** Says at once that no file can be read here, before anybody collects them. */
    lookAtEngine() {
      const { engine } = /** @type {any} */ (window);
      if (engine?.state === "failed") this.tell(engine.reason);
    }

    /** @param {string} slot @param {object} request @returns {Promise<any>} */
    async ask(slot, request) {
      const { engine } = /** @type {any} */ (window);
      if (!engine) throw new Error("The calculator cannot run here.");
      return engine.ask(slot, request);
    }

    async show() {
      const turn = (this.turn += 1);
      const groups = this.files.flatMap((it) => it.groups);
      for (const act of ["save", "clear"]) this.button(act).disabled = !this.files.length;
      this.showProblems();
      if (!groups.length) {
        for (const place of [this.say, this.table]) renew(place, "");
        this.figure.figure.hidden = true;
        return;
      }
      const answer = await this.ask("class", { class: groups }).catch((error) => this.tell(error.message));
      if (!answer || turn !== this.turn) return;
      renew(this.say, answer.html.say);
      renew(this.table, answer.html.table);
      this.figure.figure.hidden = false;
      this.figure.show(answer.html, "both");
      this.status.textContent = this.say.querySelector("p")?.textContent ?? "";
    }

    /** @param {string} act @returns {HTMLButtonElement} */
    button(act) {
      return /** @type {HTMLButtonElement} */ (this.form.querySelector(`[data-act=${act}]`));
    }

    showProblems() {
      const wrong = this.files.filter((it) => it.problems.length);
      this.errors.hidden = !wrong.length;
      this.errors.replaceChildren(
        ...wrong.map(({ file, groups, problems }) => {
          const line = document.createElement("li");
          const name = document.createElement("strong");
          name.textContent = `${file}${groups.length ? "" : ", not used"}. `;
          line.append(name, problems.slice(0, 5).join(" "), problems.length > 5 ? ` And ${problems.length - 5} more.` : "");
          return line;
        }),
      );
    }

    /** @param {string} words */
    tell(words) {
      this.wait.hidden = !words;
      renewText(this.wait, words);
    }

    clear() {
      this.files = [];
      this.emptied += 1;
      this.tell("");
      this.keeping.clear();
      this.show();
    }

    /** The table as it stands, for a spreadsheet. */
    save() {
      const rows = [...this.table.querySelectorAll("tr")].map((row) => [...row.cells].map((cell) => cell.textContent.trim()));
      saveAsFile("class-results.csv", asCsv(rows));
    }
  }

  customElements.define(
    "class-results",
    class extends HTMLElement {
      connectedCallback() {
        const form = this.querySelector("form");
        if (form) this.results = new ClassResults(form);
      }

      disconnectedCallback() {
        this.results?.leave();
      }
    },
  );
})();
