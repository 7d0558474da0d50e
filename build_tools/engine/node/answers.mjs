// Writes down what calc answers in an ordinary Pyodide with its own library, to compare the engine's answers with.
// Arguments: as snapshot.mjs. Writes into the second folder: stock_answers.
import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import { starter, warmed } from "./python.mjs";

const [folder, work, prepareFile, environment] = process.argv.slice(2);
const start = await starter(folder, join(folder, "python_stdlib.zip"), environment);
await writeFile(join(work, "stock_answers"), await warmed(await start({}), work, prepareFile));
