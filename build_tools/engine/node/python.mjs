// Starts Python in Node from the files of the engine.
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

// Node would show the line where it happened, and Pyodide's line has a million characters.
process.on("uncaughtException", (error) => {
  console.error(error.message);
  process.exit(1);
});

const { instantiate } = WebAssembly;

// The same bytes each time: nothing in a snapshot or an answer may come from the clock or from chance.
Date.now = () => 315532800000;
performance.now = () => 0;
const crypto = (await import("node:crypto")).default;
crypto.randomFillSync = (view) => view.fill(7);
globalThis.crypto.getRandomValues = (view) => view.fill(7);

/**
 * @param {string} folder of Pyodide @param {string} library Python's standard library @param {string} environment JSON
 * @returns a function that starts Python; it takes further options of loadPyodide
 */
export async function starter(folder, library, environment) {
  const { loadPyodide } = await import(pathToFileURL(join(folder, "pyodide.mjs")).href);
  const rest = await readFile(join(folder, "rest.wasm")).catch(() => null);
  if (rest) bringWithTheFirstHalf(rest);
  return (extra) =>
    loadPyodide({
      indexURL: folder,
      stdLibURL: library,
      env: JSON.parse(environment),
      _sysExecutable: "./this.program", // as in a browser; in Node it would be a path of this machine
      ...extra,
    });
}

/** @param {Buffer} rest the second half of a WebAssembly that is split */
function bringWithTheFirstHalf(rest) {
  const first = WebAssembly.instantiate;
  WebAssembly.instantiate = async (source, imports) => {
    const result = await first(source, imports);
    if (imports?.env?.memory) await instantiate(rest, imports);
    return result;
  };
}

/**
 * Brings the packages, and lets `prepareFile` warm calc up.
 * Only after the start: packages that are there before it end up in a table that no snapshot can hold.
 * @returns {Promise<string>} what calc answered
 */
export async function warmed(python, work, prepareFile) {
  writePackages(python.FS, await packagesIn(work));
  python.FS.writeFile("prepare_snapshot.py", await readFile(prepareFile));
  const prepare = python.pyimport("prepare_snapshot.prepare");
  const answers = prepare();
  prepare.destroy();
  return answers;
}

/** @param {string} work @returns {Promise<Buffer>} the part "packages" */
export function packagesIn(work) {
  return readFile(join(work, "packages"));
}

/** @param {Buffer} bytes a list of files: see archives.file_list @param {string} under which of them */
export function writePackages(fileSystem, bytes, under = "") {
  const first = 4 + bytes.readUInt32LE(0);
  let at = first;
  for (const [path, length] of JSON.parse(bytes.subarray(4, first).toString())) {
    const place = `/lib/python3.13/site-packages/${path}`;
    if (path.startsWith(under)) {
      fileSystem.mkdirTree(place.slice(0, place.lastIndexOf("/")));
      fileSystem.writeFile(place, new Uint8Array(bytes.subarray(at, at + length)));
    }
    at += length;
  }
}
