// Makes the memory snapshot: Python with calc imported and warm, as the difference from fresh memory.
// Arguments: the pyodide folder; the folder with `stdlib` and `packages`; the Python file that warms calc
// up; Python's environment as JSON. Writes into the second folder: header (Pyodide's own), runs (pairs of
// address and length), bytes (what the runs hold), heap (the size of the memory) and answers (what calc said).
import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import { starter, warmed } from "./python.mjs";

const [folder, work, prepareFile, environment] = process.argv.slice(2);
const LARGEST_BLOCK = 1 << 24;
const SMALLEST_BLOCK = 8;
const GAP_WORDS = 8; // runs closer than this are one: a pair of numbers costs as much as the gap

/** @type {WebAssembly.Memory} */
let memory;
/** @type {WebAssembly.Exports} the wasm's own functions, malloc among them */
let native;
const instantiate = WebAssembly.instantiate;
WebAssembly.instantiate = async (source, imports) => {
  const result = await instantiate(source, imports);
  if (imports?.env?.memory) {
    memory = imports.env.memory;
    native = result.instance.exports;
  }
  return result;
};

const start = await starter(folder, join(work, "stdlib"), environment);

/** Zeroes what no part of Python uses: free heap, unused stack, memory beyond the heap. */
function clearUnused() {
  const bytes = new Uint8Array(memory.buffer);
  native.malloc_set_footprint_limit(native.malloc_footprint()); // what is free, and nothing new
  const taken = [];
  for (let size = LARGEST_BLOCK; size >= SMALLEST_BLOCK; size >>= 1) {
    for (let at = native.malloc(size); at; at = native.malloc(size)) taken.push([at, size]);
  }
  for (const [at, size] of taken) bytes.fill(0, at, at + size);
  for (const [at] of taken) native.free(at);
  native.malloc_set_footprint_limit(-1);
  bytes.fill(0, native.emscripten_stack_get_end(), native.emscripten_stack_get_current());
  bytes.fill(0, native.sbrk(0));
}

/** @returns {Promise<Uint8Array>} memory as it is at the moment when a snapshot would be written into it */
async function memoryBeforeRestoring(header, size) {
  let seen;
  const probe = header.slice();
  Object.defineProperty(probe, "length", { value: size });
  Object.defineProperty(probe, "subarray", {
    value(from, to) {
      if (to !== undefined) return header.subarray(from, to);
      seen = new Uint8Array(memory.buffer.slice(0));
      throw new Error("seen enough");
    },
  });
  await start({ _loadSnapshot: probe }).catch((error) => {
    if (!seen) throw error;
  });
  return seen;
}

/** @returns {{runs: Uint32Array, bytes: Buffer}} what to write over `before` to get `after` */
function difference(before, after) {
  const old = new Uint32Array(before.buffer);
  const now = new Uint32Array(after.buffer);
  const runs = []; // address, length, address, length ... in words
  for (let at = 0; at < now.length; at += 1) {
    if (now[at] === old[at]) continue;
    const last = runs.length - 2;
    const end = runs[last] + runs[last + 1];
    if (at - end < GAP_WORDS) runs[last + 1] = at + 1 - runs[last];
    else runs.push(at, 1);
  }
  const pieces = [];
  for (let run = 0; run < runs.length; run += 2) {
    pieces.push(after.subarray(runs[run] * 4, (runs[run] + runs[run + 1]) * 4));
  }
  return { runs: new Uint32Array(runs).map((words) => words * 4), bytes: Buffer.concat(pieces) };
}

const python = await start({ _makeSnapshot: true });
await writeFile(join(work, "answers"), await warmed(python, work, prepareFile));
clearUnused();
const snapshot = python.makeMemorySnapshot();
const headerBytes = new Uint32Array(snapshot.buffer)[1];
const header = snapshot.slice(0, headerBytes);
const heap = snapshot.slice(headerBytes);
const { runs, bytes } = difference(await memoryBeforeRestoring(header, heap.length), heap);
await writeFile(join(work, "header"), header);
await writeFile(join(work, "runs"), new Uint8Array(runs.buffer));
await writeFile(join(work, "bytes"), bytes);
await writeFile(join(work, "heap"), String(heap.length));
