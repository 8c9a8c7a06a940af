// bundle.mjs: calls esbuild. Knows entries, a folder and a kind, given as JSON; knows nothing of what they hold.
import { pathToFileURL } from "node:url";
import { build } from "esbuild";

const { entries, into, kind, known, plugin } = JSON.parse(process.argv[2]);
const ours = kind === "node" ? "node24" : ["chrome111", "firefox114", "safari16.4"]; // the first that have all of: container queries, `color-mix`
await build({
  entryPoints: entries,
  outdir: into,
  bundle: true,
  minify: kind !== "node",
  // A classic script also runs where the page is opened from a folder.
  format: kind === "node" ? "esm" : "iife",
  platform: kind === "node" ? "node" : "browser",
  outExtension: kind === "node" ? { ".js": ".mjs" } : {},
  external: ["node:*", "ws"], // the runtime asks for these under Node only
  define: known,
  plugins: plugin ? [(await import(pathToFileURL(plugin).href)).default] : [],
  target: ours,
  loader: { ".woff2": "file" },
  assetNames: "fonts/[name]",
  legalComments: "none",
  logLevel: "warning",
});
