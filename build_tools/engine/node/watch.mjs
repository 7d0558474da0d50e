// Writes down which functions of the WebAssembly the answers call, from the start out of a snapshot on.
// Arguments: as snapshot.mjs, and a Python file that gives questions; the WebAssembly notes its calls (splitting.py).
// Writes into the second folder: called, a JSON list of numbers.
import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { packagesIn, starter, warmed, writePackages } from "./python.mjs";

const [folder, work, prepareFile, environment, questionsFile] = process.argv.slice(2);
const OBJECTS_BETWEEN_COLLECTIONS = 50;
/** @type {WebAssembly.Exports} of the engine that was started last */
let native;
const instantiate = WebAssembly.instantiate;
WebAssembly.instantiate = async (source, imports) => {
  const result = await instantiate(source, imports);
  if (imports?.env?.memory) native = result.instance.exports;
  return result;
};

const start = await starter(folder, join(work, "stdlib"), environment);
const first = await start({ _makeSnapshot: true });
await warmed(first, work, prepareFile);
const snapshot = first.makeMemorySnapshot();
const other = await start({});
writePackages(other.FS, await packagesIn(work));
other.FS.writeFile("asked.py", await readFile(questionsFile));
const questions = JSON.parse(other.pyimport("asked.questions")());

// As in a browser: calc's data are there before Python is, and its code is in the snapshot.
const fsInit = async (fileSystem) => writePackages(fileSystem, await packagesIn(work), "shared/");
const restored = await start({ _loadSnapshot: snapshot, fsInit });
const door = restored.pyimport("engine_door");
door.restart_chance();
// Garbage may be collected at any moment of an answer, and meets whatever lives then.
restored.pyimport("gc").set_threshold(OBJECTS_BETWEEN_COLLECTIONS);
for (const question of questions) door.answer(question);
const called = Object.keys(native).filter((name) => name.startsWith("called") && native[name].value);
await writeFile(join(work, "called"), JSON.stringify(called.map((name) => Number(name.slice("called".length)))));
