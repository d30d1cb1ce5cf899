// The real server and a real browser, for the walks, and what several of them do.
import assert from "node:assert/strict";
import { execFileSync, spawn } from "node:child_process";
import { mkdtempSync, readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";

const here = dirname(fileURLToPath(import.meta.url));
export const root = join(here, "..", "..", "..");

/** Starts the server. Set CURVEWRIGHT_URL to walk through one that runs already. */
export async function serve() {
  if (process.env.CURVEWRIGHT_URL) return { url: process.env.CURVEWRIGHT_URL, stop() {} };
  const program = join(mkdtempSync(join(tmpdir(), "curvewright-")), "testserver");
  execFileSync("go", ["build", "-o", program, "./web/internal/testserver"], { cwd: root, stdio: "inherit" });
  const child = spawn(program, { stdio: ["pipe", "pipe", "inherit"] });
  const url = await new Promise((resolve, reject) => {
    child.stdout.once("data", (line) => resolve(String(line).trim()));
    child.once("exit", (code) => reject(new Error(`the server ended with ${code}`)));
  });
  return { url, stop: () => child.stdin.end() };
}

export function launch() {
  return chromium.launch({
    executablePath: process.env.CHROME ?? "/usr/bin/chromium",
    args: [
      "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
      "--disable-background-networking", "--disable-component-update", "--disable-sync",
    ],
  });
}

export const axeSource = readFileSync(join(here, "..", "node_modules", "axe-core", "axe.min.js"), "utf8");

/** Every example by its name. */
export const examples = ["short-survey", "combi-slab", "bills-house", "ridge-house"];

/** A field of the survey, or of a visit, by its place in the document. */
export const field = (page, path) => page.locator(`[name="f.${path}"]`);

/** Waits until the page says that all is saved. */
export const saved = (page) => page.waitForFunction(() => {
  const said = document.querySelector("[data-kept]");
  return said && said.textContent.trim() === said.dataset.saved;
});

/** The page as it is can be used by everybody, as far as a program can tell (WCAG 2.2 AA). */
export async function noViolation(page, where) {
  await page.evaluate(axeSource);
  const found = await page.evaluate(() => axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] }));
  assert.deepEqual(found.violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target).join(" ; ")}`), [], `${where} can be used by everybody`);
}
