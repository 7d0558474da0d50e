/*
 * Loads the theme's own scripts when the engine has started, or cannot: they took a tenth of the time to the first
 * answer. Whoever goes to the page's head before that, to search or for light and dark, gets them at once.
 */
"use strict";

(() => {
  const AFTER_START_MS = 150; // the first answer stands by then
  const addresses = document.currentScript?.dataset.theme?.split(" ") ?? []; // none where a page was turned: they are there
  const waiting = new AbortController();
  const { signal } = waiting;

  function load() {
    waiting.abort();
    for (const address of addresses) {
      if (document.querySelector(`script[src="${CSS.escape(address)}"]`)) continue;
      const script = document.createElement("script");
      script.src = address;
      script.async = false; // one after the other
      document.body.append(script);
    }
  }

  function soon() {
    const { engine } = /** @type {any} */ (window);
    if (engine?.state !== "starting") setTimeout(() => signal.aborted || load(), engine ? AFTER_START_MS : 0);
  }

  /** The theme opens every part for paper; so does this, while the theme is not there. */
  function openForPaper() {
    const closed = [...document.querySelectorAll("details:not([open])")];
    for (const part of closed) part.toggleAttribute("open", true);
    addEventListener("afterprint", () => closed.forEach((part) => part.toggleAttribute("open", false)), { once: true });
  }

  const root = document.documentElement.classList;
  if (root.replace("no-js", "js")) {
    addEventListener("beforeprint", openForPaper, { signal });
    document.addEventListener("engine-state", soon, { signal });
    for (const near of ["pointerover", "focusin"]) document.querySelector(".md-header")?.addEventListener(near, load, { signal });
    soon();
  }
})();
