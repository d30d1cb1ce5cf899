// Bundles the script into the folder that the Go program embeds.
import { build } from "esbuild";

await build({
  entryPoints: ["src/app.ts"],
  outfile: "../assets/dist/app.js",
  bundle: true,
  minify: true,
  format: "esm",
  target: ["es2022"],
  legalComments: "none",
  logLevel: "info",
});
