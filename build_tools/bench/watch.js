/*
 * Watches a page for the bench: it stands before the text of engine.js. It wraps engine.ask, and takes the time when
 * what the engine answered stands on the screen. The first answer of each calculator is told to the console, where the
 * bench listens: that outlives a change of page, and nobody has to look again and again. `watch.first` waits for the
 * first of all, in browsers whose console cannot be heard.
 */
"use strict";

(() => {
  if (window !== window.top) return;
  const CLICKED = "bench-clicked";
  const TICK_MS = 4;

  const now = () => performance.timeOrigin + performance.now();

  /** When the reader asked for what is on the page: the click that led here, else the start of the navigation. */
  let began = Number(sessionStorage.getItem(CLICKED)) || performance.timeOrigin;
  sessionStorage.removeItem(CLICKED);

  /** @type {Set<string>} calculators whose first answer has been told */
  const told = new Set();
  /** @type {(ms: number) => void} */
  let tellFirst;
  const first = new Promise((resolve) => (tellFirst = resolve));
  /** @typedef {{at: number, answered: boolean, shown: number, nextFrame: number}} Key times in ms; 0: not yet */
  /** @type {Key[]} the keys typed in boxes */
  let keys = [];
  let answers = 0;
  let longestGap = 0;
  let lastTick = 0;
  let ticking = 0;

  function tick() {
    const at = performance.now();
    longestGap = Math.max(longestGap, at - lastTick);
    lastTick = at;
  }

  /** Runs after the frame that shows the page as it is now has been painted. */
  function afterPaint(then) {
    afterPaintOf(() => true, then);
  }

  /** The next task: the frame has left this thread. */
  function afterTask(then) {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = then;
    port2.postMessage(null);
  }

  /** Runs after the first frame that was painted while `holds` was true; a frame shows what stands when it begins. */
  function afterPaintOf(holds, then) {
    requestAnimationFrame(() => (holds() ? afterTask(then) : afterPaintOf(holds, then)));
  }

  /** Whether the numbers of an answer stand in the page. */
  function stands(request, answer) {
    return Object.entries(answer.fields).every(([symbol, { state, shown }]) => {
      const output = document.getElementById(`${request.calculator}-${symbol}-value`);
      return !output || state !== "computed" || output.textContent === shown;
    });
  }

  function noteAnswer(request, answer, typedSoFar) {
    if (!answer.fields) return; // working or pictures, which come after the numbers
    if (!told.has(request.calculator)) {
      told.add(request.calculator);
      const start = began;
      // A page that is turned may have its answer before it has its sheet.
      const here = () => document.querySelector(`calculator-sheet[key="${request.calculator}"]`) && stands(request, answer);
      afterPaintOf(here, () => {
        const time = now() - start;
        console.debug(`bench ${request.calculator} ${time}`);
        tellFirst(time);
      });
    }
    answers += 1;
    const newest = answers;
    const waiting = typedSoFar.filter((key) => !key.answered);
    for (const key of waiting) key.answered = true;
    afterPaint(function look() {
      // A newer answer in the same frame has taken the place of this one.
      if (newest === answers && !stands(request, answer)) {
        afterPaint(look);
        return;
      }
      const shown = performance.now();
      requestAnimationFrame(() => {
        for (const key of waiting) Object.assign(key, { shown, nextFrame: performance.now() });
      });
    });
  }

  function wrap(engine) {
    const ask = engine.ask.bind(engine);
    engine.ask = async (slot, request) => {
      const typedSoFar = keys.slice();
      const answer = await ask(slot, request);
      if (answer) noteAnswer(request, answer, typedSoFar);
      return answer; // whoever asked goes on in this same task, before any frame
    };
    return engine;
  }

  let engine;
  Object.defineProperty(window, "engine", {
    configurable: true,
    get: () => engine,
    set: (value) => (engine = wrap(value)),
  });

  addEventListener("click", (event) => {
    if (!(event.target instanceof Element) || !event.target.closest("a[href]")) return;
    began = performance.timeOrigin + event.timeStamp;
    sessionStorage.setItem(CLICKED, String(began));
    told.clear();
  }, true);

  let pressedAt = 0;
  addEventListener("keydown", (event) => (pressedAt = event.timeStamp), true);
  addEventListener("input", () => keys.push({ at: pressedAt, answered: false, shown: 0, nextFrame: 0 }), true);

  window.watch = {
    first,
    answered: (calculator) => told.has(calculator),
    startTyping() {
      keys = [];
      longestGap = 0;
      lastTick = performance.now();
      ticking = setInterval(tick, TICK_MS);
    },
    settled: () => keys.every((key) => key.nextFrame),
    stopTyping() {
      clearInterval(ticking);
      return {
        painted: keys.map((key) => key.shown - key.at),
        nextFrame: keys.map((key) => key.nextFrame - key.at),
        longestGap,
      };
    },
  };
})();
