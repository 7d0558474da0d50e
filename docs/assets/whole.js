/*
 * Tells the reader when a file of this copy is missing: a script or a style that a page names and that is not there;
 * and when one is of another build than the page, which its own first line finds out (build_tools/build_mark.py).
 * The engine's own parts are told of by engine.js.
 */
"use strict";

(() => {
  /** @type {Set<string>} */
  const missing = new Set();
  const own = /** @type {HTMLScriptElement} */ (document.currentScript);
  const site = new URL("..", own.src).href;
  const AGAIN = location.protocol === "file:" ? "Copy the site again, whole." : "Load the page again.";

  let other = "other" in own.dataset;

  function tell() {
    if ((!missing.size && !other) || !document.body) return;
    const line = document.querySelector(".missing-file") ?? document.createElement("p");
    line.className = "missing-file";
    line.setAttribute("role", "alert");
    const lost = `A file of this site is missing here: ${[...missing].join(", ")}.`;
    const mixed = "This page and its files are of different versions.";
    line.textContent = `${other ? mixed : lost} Not everything on this page works. ${AGAIN}`;
    if (!line.isConnected) document.body.prepend(line);
  }

  addEventListener(
    "error",
    ({ target }) => {
      const address = target instanceof HTMLScriptElement ? target.src : target instanceof HTMLLinkElement ? target.href : "";
      if (!address.startsWith(site) || address.includes("/assets/engine/")) return;
      missing.add(decodeURI(address.slice(site.length).split("?")[0]));
      tell();
    },
    true,
  );
  addEventListener("other-version", () => {
    other = true;
    tell();
  });
  addEventListener("DOMContentLoaded", tell);
})();
