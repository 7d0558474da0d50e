/*
 * The worker: holds Python with calc imported, and answers one question after the other.
 *
 * Before this text the page puts the functions `unpack`, `fromBase64` and `fetchPacked`, and `start`: the plan, whether
 * the WebAssembly is split, and the parts to fetch, each with its address. From the page: {port}, by which the snapshot
 * comes unpacked; {part, packed, size, name} for each other part of the engine, and for one that could not be fetched;
 * and {id, question} (JSON text). To the page: {received, whole} for each part, {ready, restored}, {id, answer} (JSON
 * text), {id, later} when the answer needs the whole standard library first, {id, failure}; {id, lacking} when Python
 * stopped before all of it was there; {unrestorable} when the snapshot does not fit and the other parts are needed now;
 * {failure} when Python could not start at all.
 * Nothing that the page sends is ever run as code.
 *
 * @typedef {{heap: number, madeFor: string} | null} Plan
 *   the memory snapshot to restore: its size in bytes and the files that it has to be made for; null: start
 *   the ordinary way.
 */
(() => {
  /** No such host exists: Pyodide asks for its files there, and they come from the parts. */
  const NOWHERE = "https://x.invalid/";
  const LIBRARY = "/lib/python313.zip";
  const SITE_PACKAGES = "/lib/python3.13/site-packages";
  const HEADER_BYTES = 65536;

  /** A promise for each part, and the function that settles it. */
  const arrivals = Object.fromEntries(
    ["wasm", "rest", "stdlib", "packages", "snapshot"].map((name) => {
      let arrive;
      const promise = new Promise((resolve) => (arrive = resolve));
      return [name, { promise, arrive }];
    }),
  );
  const arrived = (name) => arrivals[name].promise;
  start.fetch.forEach(fetchPart);

  /** Gives a part's memory back at once, which the next collection of garbage might do much later. */
  function spend(bytes) {
    bytes.buffer.transfer?.(0);
  }

  /** @param {string} part @returns {Promise<WebAssembly.Module>} */
  function compiledOf(part) {
    const compiled = arrived(part).then((bytes) => {
      const module = WebAssembly.compile(bytes); // it has copied the bytes when it returns
      spend(bytes);
      return module;
    });
    compiled.catch(() => {}); // whoever instantiates it reports that
    return compiled;
  }

  const compiled = compiledOf("wasm");
  const compiledRest = start.split ? compiledOf("rest") : null;

  /** Whether Python is being restored, which needs the first half of its WebAssembly only. */
  let restoring = start.plan !== null;
  /** Whether all of Python is there. */
  let settled = false;
  /** @type {Promise<void> | null} settles when it is, once all parts have arrived */
  let settling = null;

  /** @type {WebAssembly.Memory} */
  let memory;

  /** Puts the functions of the second half into the table, where the first half calls them. @type {() => Promise<void>} */
  let joinRest;

  /** Compiling has begun before Pyodide asks, so there is nothing to stream. */
  async function instantiateCompiled(_response, imports) {
    memory = imports.env.memory;
    const module = await compiled;
    const instance = await WebAssembly.instantiate(module, imports);
    joinRest = async () => {
      if (compiledRest) await WebAssembly.instantiate(await compiledRest, imports);
    };
    if (!restoring) await joinRest();
    return { module, instance };
  }

  /** Takes apart a list of files: see archives.file_list. @returns {Map<string, Uint8Array>} */
  function filesIn(bytes) {
    const start = 4 + new DataView(bytes.buffer, bytes.byteOffset).getUint32(0, true);
    const files = new Map();
    let at = start;
    for (const [path, length] of JSON.parse(new TextDecoder().decode(bytes.subarray(4, start)))) {
      files.set(path, bytes.subarray(at, at + length));
      at += length;
    }
    return files;
  }

  /** @param {Map<string, Uint8Array>} files */
  function writePackages(fileSystem, files) {
    let last = "";
    for (const [path, bytes] of files) {
      const place = `${SITE_PACKAGES}/${path}`;
      const folder = place.slice(0, place.lastIndexOf("/"));
      if (folder !== last) fileSystem.mkdirTree(folder); // for each folder that is there already it throws and catches
      last = folder;
      fileSystem.writeFile(place, bytes);
    }
  }

  /** What stands for a snapshot: Pyodide reads its head, and when it asks for the rest, gets memory written. */
  class StandIn {
    #head = new Uint8Array(HEADER_BYTES);
    #files = new Map();
    #whole = new Uint8Array(0);

    /** @param {number} heap size of the memory in bytes */
    constructor(heap) {
      const inHead = (from, to) => new Uint8Array(this.#head.buffer, from, to - from);
      Object.defineProperty(this.#head, "length", { value: heap });
      Object.defineProperty(this.#head, "subarray", {
        value: (from, to) => (to === undefined ? this.#writeMemory() : inHead(from, to)),
      });
    }

    get array() {
      return this.#head;
    }

    /** @param {Uint8Array | null} bytes the snapshot's part @param {string} madeFor @returns the data files in it */
    fill(bytes, madeFor) {
      if (!bytes) throw new Error("There is no snapshot.");
      this.#whole = bytes;
      this.#files = filesIn(bytes);
      const about = JSON.parse(new TextDecoder().decode(this.#files.get("about.json")));
      if (about.madeFor !== madeFor) throw new Error("The snapshot was made for other files than these.");
      new Uint8Array(this.#head.buffer).set(this.#files.get("header"));
      const data = [...this.#files].filter(([path]) => path.startsWith("data/"));
      return new Map(data.map(([path, content]) => [path.slice("data/".length), content]));
    }

    #writeMemory() {
      const target = new Uint8Array(memory.buffer);
      const runs = new Uint32Array(this.#files.get("runs").slice().buffer);
      const bytes = this.#files.get("bytes");
      let from = 0;
      for (let run = 0; run < runs.length; run += 2) {
        target.set(bytes.subarray(from, (from += runs[run + 1])), runs[run]);
      }
      this.#files.clear();
      spend(this.#whole);
      return new Uint8Array(0);
    }
  }

  const OPTIONS = {
    indexURL: NOWHERE,
    packageBaseUrl: NOWHERE,
    lockFileContents: PYODIDE_LOCK,
    env: PYTHON_ENVIRONMENT,
    stdout: () => {},
    stderr: () => {},
  };

  function boot() {
    return loadPyodide({
      ...OPTIONS,
      fsInit: async (fileSystem) => writePackages(fileSystem, filesIn(await arrived("packages"))),
    });
  }

  /** @param {{heap: number, madeFor: string}} plan */
  async function restore(plan) {
    const standIn = new StandIn(plan.heap);
    let damage;
    const python = loadPyodide({
      ...OPTIONS,
      _loadSnapshot: standIn.array,
      // By now the wasm is being instantiated; this is the last moment to wait for the snapshot.
      fsInit: async (fileSystem) => {
        try {
          writePackages(fileSystem, standIn.fill(await arrived("snapshot"), plan.madeFor));
        } catch (error) {
          damage = error;
        }
      },
    });
    return python.catch((error) => {
      throw damage ?? error;
    });
  }

  /** The whole library comes after the first answer: only then may Python import what it has not yet. */
  async function settle(python, door) {
    const parts = await Promise.all(["stdlib", "packages", ...(start.split ? ["rest"] : [])].map(arrived));
    settling = takeUp(python, door, parts);
  }

  async function takeUp(python, door, [library, packages]) {
    python.FS.writeFile(LIBRARY, library, { canOwn: true });
    writePackages(python.FS, filesIn(packages));
    spend(packages);
    await joinRest();
    door.settle();
    settled = true;
  }

  /** calc's door: a question to it is JSON text, and so is what it answers. @returns {(question: string) => string | undefined} */
  function doorOf(python, restored) {
    const door = python.pyimport("engine_door");
    if (restored) door.restart_chance();
    const { answer } = door;
    if (restored) settle(python, door);
    self.postMessage({ ready: true, restored });
    return (question) => answer(question);
  }

  /** Restores Python from the snapshot or, if that cannot be, starts it the ordinary way. */
  async function openDoor() {
    const { plan } = start;
    await arrived("wasm"); // it is compiled beside all that Pyodide does before it asks for the result
    let library = plan ? new ArrayBuffer(0) : arrived("stdlib"); // in a snapshot it is not needed yet
    self.fetch = async (address) => {
      if (address.pathname === "/pyodide.asm.wasm") return new Response();
      if (address.pathname === "/python_stdlib.zip") return new Response(await library);
      throw new TypeError("The engine asks for no other file.");
    };
    WebAssembly.instantiateStreaming = instantiateCompiled;
    if (plan) {
      try {
        return doorOf(await restore(plan), true);
      } catch (error) {
        self.postMessage({ unrestorable: String(error) });
        restoring = false;
        library = arrived("stdlib");
      }
    }
    return doorOf(await boot(), false);
  }

  const door = openDoor();
  door.catch((error) => self.postMessage({ failure: String(error) }));

  /** What can not be fetched whole, the page brings. */
  async function fetchPart({ part, address, size, name }) {
    try {
      const packed = await fetchPacked(address);
      arrivals[part].arrive(await unpack(packed, size, name));
      spend(packed);
      self.postMessage({ received: part, whole: true });
    } catch {
      self.postMessage({ received: part, whole: false });
    }
  }

  /** A damaged snapshot is none; without another part Python waits, and the page ends this worker. */
  async function receive({ part, packed, size, name }) {
    const bytes = await unpack(packed, size, name).catch(() => null);
    spend(packed);
    if (bytes || part === "snapshot") arrivals[part].arrive(bytes);
    self.postMessage({ received: part, whole: bytes !== null });
  }

  self.onmessage = async ({ data }) => {
    if (data.port) data.port.onmessage = ({ data: bytes }) => arrivals.snapshot.arrive(bytes);
    else if (data.part) receive(data);
    else {
      try {
        const ask = await door;
        if (settling && !settled) await settling;
        const answer = ask(data.question);
        self.postMessage(answer === undefined ? { id: data.id, later: true } : { id: data.id, answer });
      } catch (error) {
        const lacks = restoring && !settled; // it may have called a function that was not there yet
        self.postMessage({ id: data.id, [lacks ? "lacking" : "failure"]: String(error) });
      }
    }
  };
})();
