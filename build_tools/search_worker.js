/*
 * The theme starts its search worker with every page, which costs more memory than the page and takes a core from the
 * calculators' engine. This puts it off until somebody searches. From a disk browsers refuse a worker named by its
 * address, but not one made from a Blob: so the worker's text travels in here; the builder puts it in.
 */
"use strict";
(() => {
  const RealWorker = Worker;
  const source = SEARCH_SOURCE;
  const BOX = "[data-md-component=search], [data-md-component=search-query]";

  /** Stands for a worker that is not there yet: what it is sent waits for it. */
  class LateWorker extends EventTarget {
    /** @type {Worker | null} */
    #worker = null;
    /** @type {any[]} */
    #waiting = [];

    /** @param {string} address */
    constructor(address) {
      super();
      const start = (/** @type {Event} */ event) => {
        if (this.#worker || !(/** @type {Element} */ (event.target).closest?.(BOX))) return;
        this.#start(address);
        for (const kind of ["focusin", "pointerover"]) document.removeEventListener(kind, start);
      };
      const searching = document.activeElement?.closest(BOX) || new URL(location.href).searchParams.has("q");
      if (searching) this.#start(address);
      else for (const kind of ["focusin", "pointerover"]) document.addEventListener(kind, start);
    }

    #start(address) {
      const fromDisk = location.protocol === "file:";
      this.#worker = new RealWorker(fromDisk ? URL.createObjectURL(new Blob([source])) : address);
      this.#worker.onmessage = ({ data }) => this.dispatchEvent(new MessageEvent("message", { data }));
      for (const message of this.#waiting.splice(0)) this.#worker.postMessage(message);
    }

    postMessage(message) {
      if (this.#worker) this.#worker.postMessage(message);
      else this.#waiting.push(message);
    }

    terminate() {
      this.#worker?.terminate();
    }
  }

  window.Worker = function (address, options) {
    const searches = String(address).includes("/workers/search.");
    return searches ? new LateWorker(String(address)) : new RealWorker(address, options);
  };
})();
