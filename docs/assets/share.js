/*
 * Giving a link away: the address with its numbers, in words what it holds, and over http a code to photograph.
 * Calculators, record sheets and practice sets hand over their fragment and those words; templates/share.html is its
 * place on a page. This file is fetched when somebody first shares or prints. The drawing of the code comes from a file of its own, fetched when somebody first wants one.
 */
"use strict";

/** What a link says in words. @typedef {{holds: string[], lacks: string}} Words */

class Share {
  static LONGEST = 300; // characters that a telephone still reads off paper
  static SHORT = 150; // up to here with level M, which a crease may hide 15 % of; longer ones need larger modules more
  static QUIET = 4; // modules of white around a code: ISO/IEC 18004
  static #script = /** @type {HTMLScriptElement} */ (document.currentScript).src;
  /** @type {Promise<void> | null} */
  static #drawing = null;

  /** @param {HTMLElement} place */
  constructor(place) {
    this.place = place;
    const { id, what } = place.dataset;
    place.innerHTML = `<p class="share-line"><label for="${id}">Link to this ${what}</label> <input id="${id}" type="text" readonly spellcheck="false"> <span role="status"></span> <button type="button" data-act="close-share">Close</button></p><p class="share-holds"></p><div class="share-code"></div><p class="share-note"></p>`;
    this.field = /** @type {HTMLInputElement} */ (place.querySelector("input"));
    this.done = /** @type {HTMLElement} */ (place.querySelector("[role=status]"));
    this.holds = /** @type {HTMLElement} */ (place.querySelector(".share-holds"));
    this.code = /** @type {HTMLElement} */ (place.querySelector(".share-code"));
    this.note = /** @type {HTMLElement} */ (place.querySelector(".share-note"));
    place.querySelector("[data-act=close-share]")?.addEventListener("click", () => {
      place.hidden = true;
      this.from?.focus();
    });
  }

  /** @param {string} fragment @param {string} [page] another page beside this one @returns {string} the whole address, written so that every program reads it alike */
  static address(fragment, page = "") {
    const own = location.href.split("#")[0].split("?")[0];
    return new URL(`${page ? own.replace(/[^/]*$/, page) : own}#${fragment}`).href;
  }

  /** Shows the link, copies it if the browser may, and draws its code. @param {string} fragment @param {Words} words @param {string} [page] */
  async show(fragment, words, page) {
    this.from = /** @type {HTMLElement | null} */ (document.activeElement);
    this.place.hidden = false;
    await this.fill(fragment, words, page);
    this.place.scrollIntoView({ block: "nearest" });
    try {
      await navigator.clipboard.writeText(this.field.value);
      this.done.textContent = "Copied.";
    } catch {
      this.field.focus();
      this.field.select();
      this.done.textContent = "Copy it from here.";
    }
  }

  /** What it shows, for as long as it is open. @param {string} fragment @param {Words} words @param {string} [page] */
  async fill(fragment, { holds, lacks }, page) {
    const address = Share.address(fragment, page);
    this.field.value = address;
    this.done.textContent = "";
    this.holds.textContent = `In this link: ${holds.join("; ")}. Not in it: ${lacks}.`;
    await this.draw(address);
  }

  /** @param {string} address */
  async draw(address) {
    this.code.replaceChildren();
    this.note.textContent = Share.reason(address);
    if (this.note.textContent) return;
    try {
      await Share.ready();
      this.code.innerHTML = Share.svg(address);
      this.note.textContent = Share.elsewhere() ? "" : "This address opens on this computer only.";
    } catch {
      this.note.textContent = "The code cannot be drawn here. The link works.";
    }
  }

  /** Puts the code at the head of the paper, for as long as it takes to print. @param {string} fragment */
  static async onPaper(fragment) {
    const place = /** @type {HTMLElement | null} */ (document.querySelector(".site-head .share-paper"));
    const address = Share.address(fragment);
    if (!place || Share.reason(address)) return;
    try {
      await Share.ready();
    } catch {
      return; // the sheet prints without it
    }
    place.innerHTML = Share.svg(address);
    place.hidden = false;
    addEventListener("afterprint", () => (place.hidden = true), { once: true });
  }

  /** @param {string} address @returns {string} why there is no code, or nothing */
  static reason(address) {
    if (!address.startsWith("http")) {
      return "On another computer, paste it into the box on that copy’s title page. A code to photograph needs the site on a web server.";
    }
    if (address.length > Share.LONGEST) return `Too long for a code to photograph: ${address.length} characters of ${Share.LONGEST}.`;
    return "";
  }

  static elsewhere() {
    return !/^(localhost|127\.|\[::1\])/.test(location.hostname);
  }

  static ready() {
    Share.#drawing ??= new Promise((resolve, reject) => {
      const script = document.createElement("script");
      script.src = Share.#script.replace(/share\.js/, "qr/code.js");
      script.onload = () => resolve();
      script.onerror = () => {
        Share.#drawing = null;
        reject(new Error("missing"));
      };
      document.head.append(script);
    });
    return Share.#drawing;
  }

  /** The code as a drawing: numbers only, so that no text of a reader comes into the page. @param {string} address */
  static svg(address) {
    const code = /** @type {any} */ (window).qrcode(0, address.length > Share.SHORT ? "L" : "M"); // as small as fits
    code.addData(address, "Byte");
    code.make();
    const count = code.getModuleCount();
    let path = "";
    for (let row = 0; row < count; row += 1) {
      for (let column = 0; column < count; column += 1) {
        let end = column;
        while (end < count && code.isDark(row, end)) end += 1;
        if (end > column) path += `M${column + Share.QUIET},${row + Share.QUIET}h${end - column}v1h${column - end}z`;
        column = end;
      }
    }
    const size = count + 2 * Share.QUIET;
    return `<svg viewBox="0 0 ${size} ${size}" role="img" aria-label="The link as a QR code" shape-rendering="crispEdges"><path fill="#fff" d="M0,0h${size}v${size}h-${size}z"/><path d="${path}"/></svg>`;
  }
}
