/*
 * The worker: holds Python with calc imported, and answers one question after the other.
 *
 * From the page: {part, bytes} for each part of the engine, then {id, question} (JSON text).
 * To the page:   {ready}, {id, answer} (JSON text), {id, failure} or {failure}.
 * Nothing that the page sends is ever run as code.
 */
(() => {
  /** No such host exists: Pyodide asks for its files there, and they come from the parts. */
  const NOWHERE = "https://x.invalid/";

  /** @type {Map<string, PromiseWithResolvers<Uint8Array>>} */
  const parts = new Map();

  /** @param {string} name */
  function part(name) {
    let slot = parts.get(name);
    if (!slot) {
      let resolve;
      const promise = new Promise((settle) => (resolve = settle));
      slot = { promise, resolve };
      parts.set(name, slot);
    }
    return slot;
  }

  /** Answers Pyodide's request for a file from the parts; no other request leaves the worker. */
  async function fetchFromParts(address) {
    switch (String(address)) {
      case `${NOWHERE}pyodide.asm.wasm`:
        return new Response(null);
      case `${NOWHERE}python_stdlib.zip`:
        return new Response(await part("stdlib").promise);
      default:
        throw new TypeError("The engine asks for no other file.");
    }
  }

  const compiled = part("wasm").promise.then((bytes) => WebAssembly.compile(bytes));

  /** Compiling has begun before Pyodide asks, so there is nothing to stream. */
  async function instantiateCompiled(_response, imports) {
    const module = await compiled;
    return { module, instance: await WebAssembly.instantiate(module, imports) };
  }

  /** Writes the packages into the file system: see archives.file_list. */
  async function writePackages(files, sitePackages) {
    const bytes = await part("packages").promise;
    const start = 4 + new DataView(bytes.buffer).getUint32(0, true);
    const list = JSON.parse(new TextDecoder().decode(bytes.subarray(4, start)));
    let at = start;
    for (const [path, length] of list) {
      const place = `${sitePackages}/${path}`;
      files.mkdirTree(place.slice(0, place.lastIndexOf("/")));
      files.writeFile(place, bytes.subarray(at, at + length));
      at += length;
    }
  }

  /** @returns {Promise<(question: string) => string>} the door of calc */
  async function start() {
    self.fetch = fetchFromParts;
    WebAssembly.instantiateStreaming = instantiateCompiled;
    const python = await loadPyodide({
      indexURL: NOWHERE,
      packageBaseUrl: NOWHERE,
      lockFileContents: PYODIDE_LOCK,
      env: { PYTHONHASHSEED: "0", TZ: "UTC", HOME: "/home/pyodide" },
      fsInit: (files, { sitePackages }) => writePackages(files, sitePackages),
      stdout: () => {},
      stderr: () => {},
    });
    return python.pyimport("engine_door").answer;
  }

  const door = start();
  door.then(
    () => self.postMessage({ ready: true }),
    (error) => self.postMessage({ failure: String(error) }),
  );

  self.onmessage = async ({ data }) => {
    if (data.part) {
      part(data.part).resolve(data.bytes);
      return;
    }
    try {
      const answer = (await door)(data.question);
      self.postMessage({ id: data.id, answer });
    } catch (error) {
      self.postMessage({ id: data.id, failure: String(error) });
    }
  };
})();
