// Takes the comments out of the page scripts in a built site; names and lines stay, so that a reader can follow them.
// usage: node bare_scripts.mjs FILE...
import { readFileSync, writeFileSync } from "node:fs";
import { minify } from "terser";

for (const file of process.argv.slice(2)) {
  const { code } = await minify(readFileSync(file, "utf8"), {
    compress: false,
    mangle: false,
    format: { comments: false, beautify: true, indent_level: 1, quote_style: 3 },
  });
  writeFileSync(file, `${code}\n`);
}
