/* <lab-plan key="ramp-lab">: prints the plan alone, and keeps the teacher's part off the paper unless it was opened. */
"use strict";

customElements.define(
  "lab-plan",
  class extends HTMLElement {
    connectedCallback() {
      this.addEventListener("click", ({ target }) => {
        if (!(target instanceof HTMLElement)) return;
        if (target.dataset.act === "print") this.print();
        const summary = target.closest("summary");
        // the theme opens every part for paper; this remembers what the reader opened
        if (summary) this.toggleAttribute("data-teacher", !(/** @type {HTMLDetailsElement} */ (summary.parentElement).open));
      });
    }

    print() {
      printAlone([document.documentElement, "print", this.getAttribute("key") ?? ""], [this, "printing", ""]);
    }
  },
);
