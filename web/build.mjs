// Bundles the page: node build.mjs OUT [--watch]
// OUT then holds index.html and assets/, which the program embeds or serves with --assets.
import { context } from "esbuild";
import { copyFile, mkdir } from "node:fs/promises";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
const out = process.argv[2];
if (!out || out.startsWith("-")) {
  console.error("usage: node build.mjs OUT [--watch]");
  process.exit(2);
}

await mkdir(join(out, "assets"), { recursive: true });
for (const [from, to] of [["index.html", "index.html"], ["icon.svg", "assets/icon.svg"]])
  await copyFile(join(here, "src", from), join(out, to));

const bundling = await context({
  absWorkingDir: here,
  entryPoints: { page: "src/page.tsx", style: "src/style/page.css" },
  outdir: resolve(out, "assets"),
  bundle: true,
  minify: true,
  format: "esm",
  target: ["es2022", "chrome110", "firefox115", "safari16"],
  jsx: "automatic",
  jsxImportSource: "preact",
  legalComments: "eof",
  logLevel: "warning",
});
if (process.argv.includes("--watch")) {
  await bundling.watch();
} else {
  await bundling.rebuild();
  await bundling.dispose();
}
