/*
 * The engine, as the page sees it: questions to the calculators go in, answers come out.
 *
 * It starts by itself. Its parts lie beside this file in engine/, as scripts, so that a page opened from a
 * disk finds them as one from a server does. Python runs in a worker; the page is never blocked.
 * When it cannot run, `engine.reason` says why in a sentence and the page keeps its printed answers.
 */
"use strict";

(() => {
  /** What page and worker say to each other, and how parts are written; build_tools/engine/payload.py holds the same number. */
  const PROTOCOL = 2;

  /** A question may take this many beats. Beats, not a clock: a laptop that slept must not count. */
  const BEAT_MS = 500;
  const BEATS_ALLOWED = 8;
  /** The worker's time to unpack what it was given; it takes a fraction of one beat unless it has died. */
  const BEATS_TO_UNPACK = 40;

  const INSTEAD = "Use the formula and the worked numbers below.";
  const CANNOT_RUN = `The calculator cannot run here. ${INSTEAD}`;
  const LACKING = `This browser is too old for the calculator, or this computer’s settings block it. ${INSTEAD}`;
  const FILE_MISSING = `A file of the calculator is missing or damaged, so it cannot run here. ${INSTEAD}`;
  const OTHER_VERSION = "This page and the calculator's files are of different versions. Load the page again.";
  const TOOK_TOO_LONG = "This took too long and was stopped. Change a number to try again.";
  const WENT_WRONG = "The calculator could not answer this. Change a number to try again.";

  /** The list of parts as JSON, and the code in base64: the builder puts them here, so that nobody has to ask for them. */
  const LISTED = "null";
  const CODE = "";

  const own = new URL(/** @type {HTMLScriptElement} */ (document.currentScript).src);
  const folder = new URL("engine/", own).href;
  /** The mark of the build that made this page; the list of parts carries one too. */
  const build = own.search.slice(1);
  /** Whether a worker may fetch files beside this one; from a disk no browser lets it. */
  const served = own.protocol.startsWith("http");

  /** An error whose message is a sentence for the reader. */
  class ReaderError extends Error {}

  /** @typedef {{name: string, size: number}} PartRow size in bytes, unpacked */
  /** @typedef {{build?: string, protocol: number, heap: number, parts: Record<string, PartRow>}} Manifest */

  /** The script files of the engine: each delivers itself by a call of engine.part. */
  class Parts {
    /** @type {Map<string, () => void>} name of a part -> a function, never called, whose text holds it in base64 */
    #delivered = new Map();
    /** @type {Manifest | null} */
    #manifest = JSON.parse(LISTED);

    deliver(name, holder) {
      this.#delivered.set(name, holder);
    }

    deliverManifest(manifest) {
      this.#manifest = manifest;
    }

    /** @param {boolean} fresh @returns {Promise<Manifest>} */
    async list(fresh) {
      if (fresh || !this.#manifest) {
        // A new address makes a browser ask again for a list that it kept from an older version.
        await loadScript(fresh ? `${folder}parts.js?${Date.now()}` : `${folder}parts.js${own.search}`);
      }
      if (!this.#manifest) throw new ReaderError(FILE_MISSING);
      const sameBuild = !build || !this.#manifest.build || this.#manifest.build === build;
      if (this.#manifest.protocol !== PROTOCOL || !sameBuild) throw new ReaderError(OTHER_VERSION);
      return this.#manifest;
    }

    /** @param {PartRow} row @returns {Promise<Uint8Array>} the code, as it is packed */
    async code(row) {
      return JSON.parse(LISTED)?.parts.code.name === row.name ? fromBase64(CODE) : this.packed(row);
    }

    /** @param {PartRow} row @returns {Promise<Uint8Array>} the part, as it is packed */
    async packed(row) {
      await loadScript(addressOf(row));
      const holder = this.#delivered.get(row.name);
      this.#delivered.delete(row.name);
      try {
        return fromBase64(commentIn(String(holder)));
      } catch {
        throw new ReaderError(FILE_MISSING);
      }
    }
  }

  /** @param {PartRow} row */
  function addressOf(row) {
    return `${folder}${row.name}.js`;
  }

  /** @param {string} address @returns {Promise<void>} */
  function loadScript(address) {
    return new Promise((resolve, reject) => {
      const script = document.createElement("script");
      script.async = true;
      script.src = address;
      script.onload = () => {
        script.remove(); // its long text is no longer needed
        resolve();
      };
      script.onerror = () => reject(new ReaderError(FILE_MISSING));
      document.head.append(script);
    });
  }

  /** Page and worker both use this, as they do `unpack`. @param {string} script with one comment, which is a part in base64 */
  function commentIn(script) {
    return script.slice(script.indexOf("/*") + 3, script.lastIndexOf("*/")); // it begins with a line break
  }

  /** Page and worker both use this. @param {string} text @returns {Uint8Array} */
  function fromBase64(text) {
    if (Uint8Array.fromBase64) return Uint8Array.fromBase64(text);
    const letters = atob(text);
    const bytes = new Uint8Array(letters.length);
    for (let at = 0; at < letters.length; at += 1) bytes[at] = letters.charCodeAt(at);
    return bytes;
  }

  /**
   * Page and worker both use this; the worker gets its text, so it may name nothing outside itself.
   * What is not the file that its name promises is refused, wherever the browser can tell.
   * @param {Uint8Array} packed gzip @param {number} size of the result @param {string} name ends in a digest of `packed`
   * @returns {Promise<Uint8Array>}
   */
  async function unpack(packed, size, name) {
    const summed = globalThis.crypto?.subtle?.digest("SHA-256", packed); // on a secure address, a disk, this very machine
    const PIECE = 1 << 18; // a larger one would keep this thread from all else for long
    const stream = new DecompressionStream("gzip");
    const writer = stream.writable.getWriter();
    const write = async () => {
      for (let from = 0; from < packed.length; from += PIECE) await writer.write(packed.subarray(from, from + PIECE));
      await writer.close();
    };
    write().catch(() => {}); // the reader below reports the same failure
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
    if (summed) {
      const sum = Array.from(new Uint8Array(await summed).subarray(0, 6), (byte) => byte.toString(16).padStart(2, "0"));
      if (!name.endsWith(`.${sum.join("")}`)) throw new RangeError("The part is not the one that its name promises.");
    }
    return bytes;
  }

  /** Workers use this: on a server a part's script is read, not run. @param {string} address @returns {Promise<Uint8Array>} */
  async function fetchPacked(address) {
    const answer = await fetch(address);
    if (!answer.ok) throw new Error(answer.statusText);
    return fromBase64(commentIn(await answer.text()));
  }

  /**
   * What a second worker runs, with one thing to do: it unpacks the snapshot while the first one sets Python up, and hands
   * it over by a port. What it cannot fetch whole, the page brings; a damaged snapshot that the page gave it is none.
   */
  function unpackBeside() {
    self.onmessage = async ({ data: { port, name, size, address, packed } }) => {
      const unpacked = async () => unpack(packed ?? (await fetchPacked(address)), size, name);
      const bytes = await unpacked().catch(() => null);
      if (bytes || packed) port.postMessage(bytes, bytes ? [bytes.buffer] : []);
      self.postMessage({ received: "snapshot", whole: bytes !== null });
    };
  }

  function missingAbility() {
    return [globalThis.Worker, globalThis.WebAssembly, globalThis.DecompressionStream].some((it) => !it);
  }

  /** Parts that a worker needs before it can answer, and those that can wait until it has. */
  const TO_RESTORE = { first: ["wasm", "snapshot"], later: ["rest", "stdlib", "packages"] };
  const TO_BOOT = { first: ["wasm", "rest", "stdlib", "packages"], later: [] };

  /** A part that is not there has not been split off. @param {Manifest["parts"]} parts @param {string[]} names */
  function rowsOf(parts, names) {
    return names.filter((part) => parts[part]).map((part) => ({ part, ...parts[part] }));
  }

  /** One life of the worker, from its start to its end. */
  class Life {
    /** @type {Worker | null} */
    #worker = null;
    /** @type {Worker | null} */
    #unpacker = null;
    /** @type {MessagePort | null} the unpacker's way to the worker, until the unpacker has it */
    #port = null;
    #over = false;
    /** @type {Promise<void> | null} */
    #whole = null;
    /** @type {Map<string, (whole: boolean) => void>} part -> told when the worker has unpacked it, or could not */
    #receipts = new Map();
    /** How many parts the page has handed over that the worker has not unpacked yet. */
    #handedOver = 0;

    /**
     * @param {Parts} parts
     * @param {boolean} restore from the memory snapshot, or start the ordinary way
     * @param {(data: any) => void} onMessage
     * @param {(error: Error) => void} onFailure called at most once
     */
    constructor(parts, restore, onMessage, onFailure) {
      this.parts = parts;
      this.restore = restore;
      this.needed = restore ? TO_RESTORE : TO_BOOT;
      this.onMessage = onMessage;
      this.onFailure = onFailure;
      this.#start().catch((error) => this.fail(error));
    }

    async #start() {
      if (missingAbility()) throw new ReaderError(LACKING);
      try {
        await this.#load(await this.parts.list(false));
      } catch {
        // The list of parts may have come from a cache, and name files of an older version.
        this.#worker?.terminate();
        this.#unpacker?.terminate();
        await this.#load(await this.parts.list(true));
      }
    }

    /**
     * The worker is hired with its code as soon as that is here, and with what it needs to begin by itself: no message
     * reaches it before the page's thread has laid out the page. On a server it fetches its parts, else the page does.
     * @param {Manifest} manifest
     */
    async #load({ parts, heap }) {
      const code = this.parts.code(parts.code);
      const rows = rowsOf(parts, this.needed.first);
      const coming = served ? [] : rows.map((row) => this.parts.packed(row));
      for (const bytes of coming) bytes.catch(() => {}); // awaited below, where the first failure counts
      const damaged = () => Promise.reject(new ReaderError(FILE_MISSING));
      const madeFor = `${parts.wasm.name} ${parts.code.name}`;
      const toFetch = served ? rows.map((row) => ({ ...row, address: addressOf(row) })) : [];
      const fetched = toFetch.map(({ part }) => this.#receipt(part));
      const start = {
        plan: this.restore ? { heap, madeFor } : null,
        split: "rest" in parts,
        fetch: toFetch.filter(({ part }) => part !== "snapshot"),
      };
      this.#hire(await unpack(await code, parts.code.size, parts.code.name).catch(damaged), start);
      this.#hireUnpacker(toFetch.find(({ part }) => part === "snapshot"));
      await Promise.all(
        rows.map(async (row, i) => (await fetched[i]) || this.#bring(row, coming[i] ?? this.parts.packed(row))),
      );
    }

    /** @param {Uint8Array} code @param {object} start */
    #hire(code, start) {
      if (this.#over) return;
      this.#worker = this.#newWorker("engine", [`const start = ${JSON.stringify(start)};\n`, code]);
    }

    /** @param {object} [toFetch] the snapshot's row, if it is to be fetched */
    #hireUnpacker(toFetch) {
      if (this.#over || !this.restore) return;
      this.#unpacker = this.#newWorker("unpacker", [`(${unpackBeside})();`]);
      const { port1, port2 } = new MessageChannel();
      this.#worker?.postMessage({ port: port1 }, [port1]);
      this.#port = port2;
      if (toFetch) this.#unpackBeside(toFetch);
    }

    /** @param {object} row of the snapshot, with its address or its bytes as `packed` */
    #unpackBeside(row) {
      const port = /** @type {MessagePort} */ (this.#port);
      this.#port = null;
      this.#unpacker?.postMessage({ ...row, port }, row.packed ? [port, row.packed.buffer] : [port]);
    }

    /** @param {string} name @param {(string | Uint8Array)[]} text @returns {Worker} */
    #newWorker(name, text) {
      const shared = `${unpack}\n${commentIn}\n${fromBase64}\n${fetchPacked}\n`;
      const address = URL.createObjectURL(new Blob([shared, ...text], { type: "text/javascript" }));
      const worker = new Worker(address, { name });
      worker.onmessage = ({ data }) => {
        if (this.#over) return;
        if (data.received) this.#receipts.get(data.received)?.(data.whole);
        else this.onMessage(data);
        if (worker === this.#unpacker) worker.terminate(); // it has nothing more to do
      };
      worker.onerror = () => this.fail(new ReaderError(CANNOT_RUN));
      URL.revokeObjectURL(address);
      return worker;
    }

    /** @param {string} part @returns {Promise<boolean>} whether the worker has got it whole */
    #receipt(part) {
      return new Promise((resolve) => this.#receipts.set(part, resolve));
    }

    /** Hands a part over to the worker, which can do without a snapshot but without no other part. */
    async #bring({ part, name, size }, coming) {
      const packed = await (part === "snapshot" ? coming.catch(() => new Uint8Array(0)) : coming);
      const whole = this.#receipt(part);
      if (part === "snapshot" && this.#port) this.#unpackBeside({ packed, size, name });
      else this.#worker?.postMessage({ part, packed, size, name }, [packed.buffer]);
      this.#handedOver += 1;
      const isWhole = await whole;
      this.#handedOver -= 1;
      if (!isWhole && part !== "snapshot") throw new ReaderError(FILE_MISSING);
    }

    /** Whether parts are with the worker; until they are, a slow disk or network takes the time that it takes. */
    get isUnpacking() {
      return this.#handedOver > 0;
    }

    /** Brings what can wait; a second call tries again if the first one failed. @returns {Promise<void>} */
    bringTheRest() {
      this.#whole ??= this.#loadTheRest().catch((error) => {
        this.#whole = null;
        throw error;
      });
      return this.#whole;
    }

    async #loadTheRest() {
      const { parts } = await this.parts.list(false);
      try {
        await Promise.all(rowsOf(parts, this.needed.later).map((row) => this.#bring(row, this.parts.packed(row))));
      } catch (error) {
        await this.parts.list(true); // a server that has got a new version meanwhile: this says so
        throw error;
      }
    }

    /** @param {object} message */
    send(message) {
      this.#worker?.postMessage(message);
    }

    /** @param {Error} error */
    fail(error) {
      if (this.#over) return;
      this.end();
      this.onFailure(error instanceof ReaderError ? error : new ReaderError(CANNOT_RUN));
    }

    end() {
      this.#over = true;
      this.#worker?.terminate();
      this.#unpacker?.terminate();
    }
  }

  /**
   * Answers to questions that nobody has asked yet. Between two keys the worker has nothing to do: the page says what the
   * next key would ask, and the number then stands in the key's own frame, one earlier than an answer from the worker.
   * An answer counts only for a question of the very same text, in the same life of the worker.
   */
  class Foresight {
    static MOST = 12; // questions after a key
    static KEPT = 24;
    static SLOW_MS = 10; // a question of the reader's must not wait longer than that behind one of these

    /** @type {Map<string, string>} question -> answer, both JSON text; the newest last */
    #answers = new Map();
    /** @type {(() => object[]) | null} */
    #probable = null;
    /** @type {string[]} */
    #open = [];
    /** How many questions this machine can take: after a slow answer half as many, after a quick row one more. */
    #most = Foresight.MOST;

    /** @param {() => object[]} probable the requests that may come next, the likeliest first */
    expect(probable) {
      this.#probable = probable;
    }

    get isExpecting() {
      return Boolean(this.#probable || this.#open.length);
    }

    /** @returns {string | undefined} what to ask next */
    next() {
      if (this.#probable) {
        const questions = this.#probable().slice(0, this.#most).map((request) => JSON.stringify(request));
        this.#open = questions.filter((it) => !this.#answers.has(it));
        this.#probable = null;
      }
      return this.#open.shift();
    }

    /** @param {string} question @param {string | undefined} answer undefined: it could not be answered @param {number} took in ms */
    keep(question, answer, took) {
      if (answer !== undefined) this.#put(question, answer);
      if (took > Foresight.SLOW_MS) this.#most = Math.ceil(this.#most / 2);
      if (took > Foresight.SLOW_MS || answer === undefined) this.#open = [];
      else if (!this.#open.length) this.#most = Math.min(this.#most + 1, Foresight.MOST);
    }

    /** @param {string} question @returns {string | undefined} */
    answer(question) {
      const answer = this.#answers.get(question);
      if (answer !== undefined) this.#put(question, answer);
      return answer;
    }

    /** A worker's answers end with it. */
    forget() {
      this.#answers.clear();
      this.#open = [];
    }

    /** One of these questions had no end: there are no more of them. */
    giveUp() {
      this.#most = 0;
    }

    #put(question, answer) {
      this.#answers.delete(question);
      this.#answers.set(question, answer);
      if (this.#answers.size > Foresight.KEPT) this.#answers.delete(this.#answers.keys().next().value);
    }
  }

  /** @typedef {{question: string, resolve: (answer: object | null) => void, reject: (error: Error) => void}} Question JSON text */

  /** @typedef {{beats: number, loads?: boolean}} Job what the worker is at, and for how long; `loads`: more of its parts */

  /** @typedef {Question & Job & {slot: string, id: number}} Asked */

  /** @typedef {Job & {question: string, id: number, sent: number}} Foreseen asked in ms before anybody wants it */

  class Engine {
    /** @type {"starting" | "ready" | "failed"} */
    state = "starting";
    /** A sentence for the reader once the engine has failed. */
    reason = "";
    /** @type {Promise<void>} settles when the engine can answer; rejects with a sentence for the reader */
    ready;

    /** Whether Python was restored from the memory snapshot, not started the ordinary way. */
    restored = false;

    #parts = new Parts();
    /** @type {Life} */
    #life;
    /** @type {Map<string, Question>} slot -> its newest question not yet asked; oldest slot first */
    #waiting = new Map();
    /** @type {Asked | null} */
    #asked = null;
    #foresight = new Foresight();
    /** @type {Foreseen | null} what the worker is at while nothing is asked */
    #foreseen = null;
    #foreseeingSoon = false;
    /** @type {Life | null} the one that was brought all its parts, or cannot get them */
    #broughtTo = null;
    /** @type {Job | null} while questions wait for these parts */
    #held = null;
    #lastId = 0;
    /** The timer of the beats, while a question is asked or waits. */
    #beats = 0;
    #restorable = true;
    #settleReady = { resolve: () => {}, reject: (_error) => {} };

    constructor() {
      this.#start();
    }

    /**
     * Asks calc a question; a newer one on the same slot takes the place of one not yet asked, whose
     * promise then resolves to null. What was foreseen is answered at once, and an older question of its slot is then
     * too late for the page, asked or not. Rejects with a sentence for the reader.
     * @param {string} slot
     * @param {object} request
     * @returns {Promise<object | null>}
     */
    ask(slot, request) {
      if (this.state === "failed") return Promise.reject(new ReaderError(this.reason));
      const question = JSON.stringify(request);
      const foreseen = this.#foresight.answer(question);
      this.#waiting.get(slot)?.resolve(null);
      if (foreseen !== undefined) {
        this.#waiting.delete(slot);
        if (this.#asked?.slot === slot) this.#asked.resolve(null);
        return Promise.resolve(JSON.parse(foreseen));
      }
      return new Promise((resolve, reject) => {
        this.#waiting.set(slot, { question, resolve, reject });
        this.#askNext();
      });
    }

    /**
     * Has the likeliest next questions answered before they are asked, as far as the worker has nothing else to do.
     * @param {() => object[]} probable gives the requests, the likeliest first, when there is time for them
     */
    foresee(probable) {
      this.#foresight.expect(probable);
      this.#foreseeSoon();
    }

    /** Called by each script file of the engine with its name and the function that holds it. */
    part(name, holder) {
      this.#parts.deliver(name, holder);
    }

    /** Called by engine/parts.js with the list of the script files. */
    manifest(manifest) {
      this.#parts.deliverManifest(manifest);
    }

    #start() {
      this.ready = new Promise((resolve, reject) => (this.#settleReady = { resolve, reject }));
      this.ready.catch(() => {}); // whoever waits for it handles it; nobody needs to
      this.restored = false;
      this.#foreseen = null;
      this.#held = null;
      this.#foresight.forget();
      this.#setState("starting");
      const hear = (data) => this.#hear(data);
      this.#life = new Life(this.#parts, this.#restorable, hear, (error) => this.#fail(error));
    }

    #hear(data) {
      if (data.ready) this.#begin(data.restored);
      else if (data.unrestorable) this.#goOnWithoutSnapshot(data.unrestorable);
      else if (data.id === undefined) {
        console.warn(data.failure);
        this.#life.fail(new ReaderError(CANNOT_RUN));
      } else if (data.lacking !== undefined) this.#startWhole(data.lacking);
      else if (this.#foreseen?.id === data.id) this.#keepForeseen(data.answer);
      else if (this.#asked?.id === data.id) {
        if (data.later) this.#askAgainLater();
        else if (data.failure !== undefined) {
          console.warn(data.failure);
          this.#replaceWorker(WENT_WRONG);
        } else this.#answered(data.answer);
      }
    }

    /** @param {boolean} restored */
    #begin(restored) {
      this.restored = restored;
      this.#setState("ready");
      this.#settleReady.resolve();
      this.#askNext();
      if (this.#asked) return;
      this.#bringTheRest();
      this.#foreseeSoon();
    }

    /** @param {string} why */
    #goOnWithoutSnapshot(why) {
      console.warn(why);
      this.#restorable = false;
      const life = this.#life;
      life.bringTheRest().catch((error) => life.fail(error));
    }

    /**
     * Python called a function that was not there yet, and cannot go on. It starts again with all its parts, and what was
     * asked is asked again.
     * @param {string} why
     */
    #startWhole(why) {
      console.warn(why);
      this.#restorable = false;
      const asked = this.#asked;
      this.#asked = null;
      if (asked && this.#waiting.has(asked.slot)) asked.resolve(null);
      else if (asked) this.#waiting = new Map([[asked.slot, asked], ...this.#waiting]);
      this.#life.end();
      this.#start();
    }

    /** @param {string} text JSON */
    #answered(text) {
      const { resolve } = /** @type {Asked} */ (this.#asked);
      this.#asked = null;
      resolve(JSON.parse(text));
      this.#bringTheRest();
      this.#askNext();
      this.#foreseeSoon();
    }

    /** After the next frame: the page paints first, and whoever goes on asking has asked. A hidden page has no frames. */
    #foreseeSoon() {
      if (this.#foreseeingSoon || !this.#foresight.isExpecting) return;
      this.#foreseeingSoon = true;
      requestAnimationFrame(() =>
        setTimeout(() => {
          this.#foreseeingSoon = false;
          this.#foreseeNext();
        }),
      );
    }

    /** One at a time, so that a question of the reader's waits for one of these at most. */
    #foreseeNext() {
      if (this.state !== "ready" || this.#asked || this.#foreseen || this.#held) return;
      const question = this.#foresight.next();
      if (question === undefined) return;
      this.#lastId += 1;
      this.#foreseen = { question, id: this.#lastId, beats: 0, sent: performance.now() };
      this.#life.send({ id: this.#lastId, question });
    }

    /** @param {string | undefined} answer JSON; undefined: it needs more of the library, or failed, which nobody has to know */
    #keepForeseen(answer) {
      const { question, sent } = /** @type {Foreseen} */ (this.#foreseen);
      this.#foreseen = null;
      this.#foresight.keep(question, answer, performance.now() - sent);
      this.#askNext();
      this.#foreseeNext();
    }

    /** Python needs more of its library for this question than it was restored with. */
    async #askAgainLater() {
      const [life, asked] = [this.#life, /** @type {Asked} */ (this.#asked)];
      Object.assign(asked, { beats: 0, loads: true });
      try {
        await life.bringTheRest();
      } catch (error) {
        life.fail(error);
        return;
      }
      Object.assign(asked, { beats: 0, loads: false });
      life.send({ id: asked.id, question: asked.question });
    }

    /** After its first answer, or with nothing to answer yet, Python gets all its parts; what is asked then may need any. */
    #bringTheRest() {
      const life = this.#life;
      const brought = life.bringTheRest().catch(() => {}); // a question that needs it tries again, and tells
      if (this.#broughtTo === life) return;
      this.#broughtTo = life;
      this.#held = { beats: 0, loads: true };
      brought.then(() => {
        if (life !== this.#life) return;
        this.#held = null;
        this.#askNext();
        this.#foreseeSoon();
      });
    }

    #askNext() {
      if (this.state !== "ready" || !this.#waiting.size) return;
      this.#beats ||= setInterval(() => this.#beat(), BEAT_MS);
      if (this.#asked || this.#foreseen || this.#held) return;
      const [slot, question] = this.#waiting.entries().next().value;
      this.#waiting.delete(slot);
      this.#lastId += 1;
      this.#asked = { ...question, slot, id: this.#lastId, beats: 0 };
      this.#life.send({ id: this.#lastId, question: question.question });
    }

    /** When nothing is asked any more, the timer ends: an open page that nobody uses takes no time. */
    #beat() {
      const busyWith = this.#asked ?? (this.#waiting.size ? (this.#foreseen ?? this.#held) : null);
      if (!busyWith) {
        clearInterval(this.#beats);
        this.#beats = 0;
        return;
      }
      if (busyWith.loads && !this.#life.isUnpacking) return;
      busyWith.beats += 1;
      if (busyWith.beats <= (busyWith.loads ? BEATS_TO_UNPACK : BEATS_ALLOWED)) return;
      if (busyWith === this.#foreseen) this.#foresight.giveUp(); // what waits behind it is asked again, of the next worker
      this.#replaceWorker(TOOK_TOO_LONG);
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
      this.#asked?.reject(error);
      this.#asked = null;
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
