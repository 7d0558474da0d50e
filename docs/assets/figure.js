/* One drawing of a sheet. The page holds it in two widths, made by calc, and the style sheet shows the one that fits. */
"use strict";

/** One picture in two widths, of which the page shows one; a page to print has one width only. */
class Figure {
  static WIDE_PX = 520; // as the style sheet has it

  /** @param {HTMLElement} figure */
  constructor(figure) {
    this.figure = figure;
    this.name = figure.classList[0];
    /** @type {Element | null} */
    this.page = figure.querySelector(".is-page");
    this.caption = /** @type {HTMLElement} */ (figure.querySelector("figcaption"));
  }

  /** The width that stands on the screen now. */
  get width() {
    return this.page || this.figure.clientWidth >= Figure.WIDE_PX ? "wide" : "narrow";
  }

  /** Whether the page was built without the drawing of this width, as its lower sheets are. @param {string} width */
  lacks(width) {
    return !this.figure.querySelector(`.is-${width} svg`);
  }

  /** @param {Record<string, string>} html @param {string} asked  "wide", "narrow" or "both" */
  show(html, asked) {
    if (this.page && asked === "narrow") return;
    let missing = false;
    for (const width of this.page ? ["wide"] : ["wide", "narrow"]) {
      if (asked !== "both" && asked !== width) continue;
      const svg = html[`${this.name}_${width}`];
      const place = this.page ?? this.figure.querySelector(`.is-${width}`);
      if (svg !== undefined && place) renew(place, svg);
      else missing = true;
    }
    if (!missing) renewText(this.caption, html[`${this.name}_caption`] ?? "");
    this.setStale(missing);
  }

  /** @param {boolean} stale */
  setStale(stale) {
    this.figure.classList.toggle("is-stale", stale);
  }
}
