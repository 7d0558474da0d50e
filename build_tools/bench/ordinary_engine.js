/*
 * What the site is measured against: the same door as the site's engine, driven the way Pyodide's documentation
 * says: loadPyodide, loadPackage, call Python, all on the page's own thread. pyodide.js and the list
 * `ordinaryWheels` are loaded before this file.
 */
"use strict";

(() => {
  const folder = new URL("pyodide/", /** @type {HTMLScriptElement} */ (document.currentScript).src).href;
  /** @type {Map<string, number>} slot -> how often it has been asked */
  const turns = new Map();
  /** @type {(question: string) => string} */
  let answer;

  function setState(state) {
    engine.state = state;
    document.dispatchEvent(new CustomEvent("engine-state", { detail: state }));
  }

  async function start() {
    const pyodide = await loadPyodide();
    await pyodide.loadPackage(ordinaryWheels.map((name) => folder + name));
    answer = pyodide.pyimport("calc").answer_json;
    setState("ready");
  }

  /** As the site's engine: of the questions that wait for Python, only the newest of each slot is answered. */
  async function ask(slot, request) {
    const turn = (turns.get(slot) ?? 0) + 1;
    turns.set(slot, turn);
    await engine.ready;
    return turns.get(slot) === turn ? JSON.parse(answer(JSON.stringify(request))) : null;
  }

  const engine = { state: "starting", reason: "", ask };
  engine.ready = start();
  window.engine = engine;
})();
