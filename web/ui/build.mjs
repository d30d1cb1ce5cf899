// Bundles the scripts into the folder that the Go program embeds: that of every page, and
// that of the one page which draws logs.
import { build } from "esbuild";

await build({
  entryPoints: ["src/app.ts", "src/series.ts"],
  outdir: "../assets/dist",
  bundle: true,
  minify: true,
  format: "esm",
  target: ["es2022"],
  legalComments: "inline",
  logLevel: "info",
});
