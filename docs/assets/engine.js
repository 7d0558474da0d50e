/*
 * The engine, as the page sees it: questions to the calculators go in, answers come out.
 *
 * It starts by itself. Its parts lie beside this file in engine/, as scripts, so that a page opened from a
 * disk finds them as one from a server does. Python runs in a worker; the page is never blocked.
 * When it cannot run, `engine.reason` says why in a sentence and the page keeps its printed answers.
 */
"use strict";

(() => {
  /** What page and worker say to each other; build_tools/engine/payload.py holds the same number. */
  const PROTOCOL = 1;

  /** A question may take this many beats. Beats, not a clock: a laptop that slept must not count. */
  const BEAT_MS = 500;
  const BEATS_ALLOWED = 8;

  const INSTEAD = "Use the formula and the worked numbers below.";
  const CANNOT_RUN = `The calculator cannot run here. ${INSTEAD}`;
  const TOO_OLD = `This browser is too old for the calculator. ${INSTEAD}`;
  const FILE_MISSING = `A file of the calculator is missing or damaged, so it cannot run here. ${INSTEAD}`;
  const OTHER_VERSION = "This page and the calculator's files are of different versions. Load the page again.";
  const TOOK_TOO_LONG = "This took too long and was stopped. Change a number to try again.";
  const WENT_WRONG = "The calculator could not answer this. Change a number to try again.";

  const folder = new URL("engine/", /** @type {HTMLScriptElement} */ (document.currentScript).src).href;

  /** An error whose message is a sentence for the reader. */
  class ReaderError extends Error {}

  /** @typedef {{name: string, size: number}} PartRow */

  /** The script files of the engine: each delivers itself by a call of engine.part. */
  class Parts {
    /** @type {Map<string, string>} name of a part -> base64 text */
    #delivered = new Map();
    /** @type {{protocol: number, parts: Record<string, PartRow>} | null} */
    #manifest = null;

    deliver(name, text) {
      this.#delivered.set(name, text);
    }

    deliverManifest(manifest) {
      this.#manifest = manifest;
    }

    /** @returns {Promise<Record<string, PartRow>>} */
    async rows(fresh) {
      if (fresh || !this.#manifest) {
        // A new address makes a browser ask again for a list that it kept from an older version.
        await loadScript(fresh ? `${folder}parts.js?${Date.now()}` : `${folder}parts.js`);
      }
      if (!this.#manifest) throw new ReaderError(FILE_MISSING);
      if (this.#manifest.protocol !== PROTOCOL) throw new ReaderError(OTHER_VERSION);
      return this.#manifest.parts;
    }

    /** @param {PartRow} row @returns {Promise<Uint8Array>} the part, unpacked */
    async bytes(row) {
      await loadScript(`${folder}${row.name}.js`);
      const text = this.#delivered.get(row.name);
      this.#delivered.delete(row.name);
      if (text === undefined) throw new ReaderError(FILE_MISSING);
      try {
        return await unpack(fromBase64(text), row.size);
      } catch {
        throw new ReaderError(FILE_MISSING);
      }
    }
  }

  /** @param {string} address @returns {Promise<void>} */
  function loadScript(address) {
    return new Promise((resolve, reject) => {
      const script = document.createElement("script");
      script.async = true;
      script.src = address;
      script.onload = () => resolve();
      script.onerror = () => reject(new ReaderError(FILE_MISSING));
      document.head.append(script);
    });
  }

  /** @param {string} text @returns {Uint8Array} */
  function fromBase64(text) {
    if (Uint8Array.fromBase64) return Uint8Array.fromBase64(text);
    const letters = atob(text);
    const bytes = new Uint8Array(letters.length);
    for (let at = 0; at < letters.length; at += 1) bytes[at] = letters.charCodeAt(at);
    return bytes;
  }

  /** @param {Uint8Array} packed gzip @param {number} size of the result @returns {Promise<Uint8Array>} */
  async function unpack(packed, size) {
    const stream = new DecompressionStream("gzip");
    const writer = stream.writable.getWriter();
    const written = Promise.all([writer.write(packed), writer.close()]);
    written.catch(() => {}); // the reader below reports the same failure
    const bytes = new Uint8Array(size);
    const reader = stream.readable.getReader();
    let at = 0;
    for (;;) {
      const { value, done } = await reader.read();
      if (done) break;
      bytes.set(value, at);
      at += value.length;
    }
    if (at !== size) throw new RangeError("The part has another size than its manifest says.");
    return bytes;
  }

  function missingAbility() {
    return [globalThis.Worker, globalThis.WebAssembly, globalThis.DecompressionStream].some((it) => !it);
  }

  /** One life of the worker, from its start to its end. */
  class Life {
    /** @type {Worker | null} */
    #worker = null;
    #over = false;

    /**
     * @param {Parts} parts
     * @param {(data: any) => void} onMessage
     * @param {(error: Error) => void} onFailure called at most once
     */
    constructor(parts, onMessage, onFailure) {
      this.onMessage = onMessage;
      this.fail = (error) => {
        if (this.#over) return;
        this.end();
        onFailure(error instanceof ReaderError ? error : new ReaderError(CANNOT_RUN));
      };
      this.#start(parts).catch(this.fail);
    }

    async #start(parts) {
      if (missingAbility()) throw new ReaderError(TOO_OLD);
      try {
        await this.#load(parts, await parts.rows(false));
      } catch (error) {
        if (!(error instanceof ReaderError) || this.#over) throw error;
        this.#worker?.terminate();
        await this.#load(parts, await parts.rows(true));
      }
    }

    /** @param {Parts} parts @param {Record<string, PartRow>} rows */
    async #load(parts, rows) {
      const needed = ["wasm", "stdlib", "packages"].map(async (part) => ({ part, bytes: await parts.bytes(rows[part]) }));
      for (const coming of needed) coming.catch(() => {}); // awaited below, where the first failure counts
      const worker = this.#hire(await parts.bytes(rows.code));
      await Promise.all(
        needed.map(async (coming) => {
          const message = await coming;
          worker.postMessage(message, [message.bytes.buffer]);
        }),
      );
    }

    /** @param {Uint8Array} code @returns {Worker} */
    #hire(code) {
      const address = URL.createObjectURL(new Blob([code], { type: "text/javascript" }));
      const worker = new Worker(address, { name: "engine" });
      worker.onmessage = ({ data }) => {
        if (!this.#over) this.onMessage(data);
      };
      worker.onerror = () => this.fail(new ReaderError(CANNOT_RUN));
      URL.revokeObjectURL(address);
      if (this.#over) worker.terminate();
      this.#worker = worker;
      return worker;
    }

    /** @param {object} message */
    send(message) {
      this.#worker?.postMessage(message);
    }

    end() {
      this.#over = true;
      this.#worker?.terminate();
    }
  }

  /** @typedef {{request: object, resolve: (answer: object | null) => void, reject: (error: Error) => void}} Question */

  class Engine {
    /** @type {"starting" | "ready" | "failed"} */
    state = "starting";
    /** A sentence for the reader once the engine has failed. */
    reason = "";
    /** @type {Promise<void>} settles when the engine can answer; rejects with a sentence for the reader */
    ready;

    #parts = new Parts();
    /** @type {Life} */
    #life;
    /** @type {Map<string, Question>} slot -> its newest question not yet asked; oldest slot first */
    #waiting = new Map();
    /** @type {(Question & {id: number, beats: number}) | null} */
    #asked = null;
    #lastId = 0;
    #settleReady = { resolve: () => {}, reject: (_error) => {} };

    constructor() {
      this.#start();
      setInterval(() => this.#beat(), BEAT_MS);
    }

    /**
     * Asks calc a question; a newer one on the same slot takes the place of one not yet asked, whose
     * promise then resolves to null. Rejects with a sentence for the reader.
     * @param {string} slot
     * @param {object} request
     * @returns {Promise<object | null>}
     */
    ask(slot, request) {
      if (this.state === "failed") return Promise.reject(new ReaderError(this.reason));
      return new Promise((resolve, reject) => {
        this.#waiting.get(slot)?.resolve(null);
        this.#waiting.set(slot, { request, resolve, reject });
        this.#askNext();
      });
    }

    /** Called by each script file of the engine with its name and its base64 text. */
    part(name, text) {
      this.#parts.deliver(name, text);
    }

    /** Called by engine/parts.js with the list of the script files. */
    manifest(manifest) {
      this.#parts.deliverManifest(manifest);
    }

    #start() {
      this.ready = new Promise((resolve, reject) => (this.#settleReady = { resolve, reject }));
      this.ready.catch(() => {}); // whoever waits for it handles it; nobody needs to
      this.#setState("starting");
      this.#life = new Life(
        this.#parts,
        (data) => this.#hear(data),
        (error) => this.#fail(error),
      );
    }

    #hear(data) {
      if (data.ready) {
        this.#setState("ready");
        this.#settleReady.resolve();
        this.#askNext();
      } else if (data.id === undefined) {
        this.#life.fail(new ReaderError(CANNOT_RUN));
      } else if (this.#asked?.id === data.id) {
        if (data.failure !== undefined) {
          console.warn(data.failure);
          this.#replaceWorker(WENT_WRONG);
          return;
        }
        const { resolve } = this.#asked;
        this.#asked = null;
        resolve(JSON.parse(data.answer));
        this.#askNext();
      }
    }

    #askNext() {
      if (this.state !== "ready" || this.#asked || !this.#waiting.size) return;
      const [slot, question] = this.#waiting.entries().next().value;
      this.#waiting.delete(slot);
      this.#lastId += 1;
      this.#asked = { ...question, id: this.#lastId, beats: 0 };
      this.#life.send({ id: this.#lastId, question: JSON.stringify(question.request) });
    }

    #beat() {
      if (!this.#asked) return;
      this.#asked.beats += 1;
      if (this.#asked.beats > BEATS_ALLOWED) this.#replaceWorker(TOOK_TOO_LONG);
    }

    /** Ends a worker that cannot be trusted to answer again; its question gets a sentence instead. */
    #replaceWorker(sentence) {
      const asked = this.#asked;
      this.#asked = null;
      this.#life.end();
      this.#start();
      asked?.reject(new ReaderError(sentence));
    }

    #fail(error) {
      this.reason = error.message;
      this.#setState("failed");
      this.#settleReady.reject(error);
      for (const question of this.#waiting.values()) question.reject(error);
      this.#waiting.clear();
    }

    /** @param {Engine["state"]} state */
    #setState(state) {
      this.state = state;
      document.dispatchEvent(new CustomEvent("engine-state", { detail: state }));
    }
  }

  window.engine = new Engine();
})();
