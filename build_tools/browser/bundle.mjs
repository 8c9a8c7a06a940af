// bundle.mjs: calls esbuild. Knows entries, a folder and a kind, given as JSON; knows nothing of what they hold.
import { build } from "esbuild";

const { entries, into, kind } = JSON.parse(process.argv[2]);
await build({
  entryPoints: entries,
  outdir: into,
  bundle: true,
  minify: true,
  // A classic script also runs where the page is opened from a folder.
  format: kind === "module" ? "esm" : "iife",
  target: ["chrome111", "firefox114", "safari16.4"], // the first that have all of: module workers, container queries, color-mix
  loader: { ".woff2": "file" },
  assetNames: "fonts/[name]",
  legalComments: "none",
  logLevel: "warning",
});
