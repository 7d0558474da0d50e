// Compiles archives in place with Pyodide's own Python.
// Arguments: the pyodide folder, the Python file that compiles, the level, the archives.
import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

// Node would show the line where it happened, and Pyodide's line has a million characters.
process.on("uncaughtException", (error) => {
  console.error(error.message);
  process.exit(1);
});

const [folder, compiler, level, ...archives] = process.argv.slice(2);
const { loadPyodide } = await import(pathToFileURL(join(folder, "pyodide.mjs")).href);
const python = await loadPyodide({ indexURL: folder, env: { PYTHONHASHSEED: "0", PYTHONNODEBUGRANGES: "1" } });
python.FS.writeFile("compile_archive.py", await readFile(compiler));
const compile = python.pyimport("compile_archive").compiled_archive;
for (const archive of archives) {
  const content = python.toPy(new Uint8Array(await readFile(archive))).tobytes();
  const result = compile(content, Number(level));
  await writeFile(archive, result.toJs());
  result.destroy();
}
