// Takes out of a script what it never uses. Script in, script out.
import { minify } from "terser";

const parts = [];
for await (const part of process.stdin) parts.push(part);
const shaken = await minify(Buffer.concat(parts).toString(), {
  mangle: false, // names in an error's trace stay those of Pyodide
  compress: { defaults: false, unused: true, dead_code: true, side_effects: true, pure_getters: true, keep_fargs: true, passes: 3 },
});
process.stdout.write(shaken.code);
