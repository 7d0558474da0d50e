/*
 * Tells the reader when a file of this copy is missing: a script or a style that a page names and that is not there.
 * The engine's own parts are told of by engine.js.
 */
"use strict";

(() => {
  /** @type {Set<string>} */
  const missing = new Set();
  const site = new URL("..", /** @type {HTMLScriptElement} */ (document.currentScript).src).href;
  const AGAIN = location.protocol === "file:" ? "Copy the site again, whole." : "Load the page again.";

  function tell() {
    if (!missing.size || !document.body) return;
    const line = document.querySelector(".missing-file") ?? document.createElement("p");
    line.className = "missing-file";
    line.setAttribute("role", "alert");
    line.textContent = `A file of this site is missing here: ${[...missing].join(", ")}. Not everything on this page works. ${AGAIN}`;
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
  addEventListener("DOMContentLoaded", tell);
})();
