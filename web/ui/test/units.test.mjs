// Walks of a reader with units of their own, and of one with a small screen.
import assert from "node:assert/strict";
import { test } from "node:test";
import { field, noViolation, saved } from "./page.mjs";
import { browser, server } from "./running.mjs";

async function open(t, path, options = {}) {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, reducedMotion: "reduce", locale: "en-US", ...options });
  t.after(() => context.close());
  const page = await context.newPage();
  const complaints = [];
  page.on("console", (m) => {
    if (["error", "warning"].includes(m.type())) complaints.push(m.text());
  });
  page.on("pageerror", (e) => complaints.push(String(e)));
  t.after(() => assert.deepEqual(complaints, [], "complaints in the console"));
  await page.goto(server.url + path);
  return page;
}

async function begin(page, example) {
  const begun = await page.request.post(`${server.url}/jobs`, { form: { example }, maxRedirects: 0 });
  return server.url + begun.headers().location.replace("/survey", "");
}

test("one unit chosen apart holds on sheet and form, and for what is typed", async (t) => {
  const page = await open(t, "/preferences");
  t.after(() => fetch(`${server.url}/preferences`, { method: "POST", body: new URLSearchParams(), redirect: "manual" }));
  await page.locator(".apart summary").click();
  await page.getByLabel("Water flow").selectOption("L/min");
  await page.getByRole("button", { name: "Save" }).click();
  assert.equal(await page.getByLabel("Water flow").inputValue(), "L/min", "the choice comes back, unfolded");
  await noViolation(page, "the preferences");

  const job = await begin(page, "ridge-house");
  await page.goto(`${job}/settings`);
  const sheet = await page.locator("main").innerText();
  assert.match(sheet, /L\/min/);
  assert.match(sheet, /°F/);

  await page.goto(`${job}/survey/circuits`);
  const flow = field(page, "circuits[0].flow");
  const unit = () => flow.evaluate((f) => f.closest(".entry").querySelector(".unit").textContent);
  assert.equal(await unit(), "L/min");
  await flow.fill("5");
  await flow.blur();
  await saved(page);
  const document = await (await page.request.get(`${job}/job.yaml`)).text();
  assert.match(document, /flow: 5 L\/min/, "a bare figure is kept in the unit that the field shows");
  await page.reload();
  assert.equal(await flow.inputValue(), "5");

  await page.request.post(`${server.url}/preferences`, { form: { units: "ca", decimal: "comma" } });
  await page.reload();
  assert.equal(await unit(), "gpm", "in Canada water flows in US gallons");
  assert.equal(await flow.inputValue(), "1,32");
  assert.equal(await page.locator("html").getAttribute("data-decimal"), ",");
});

test("on a telephone the places lie in a menu of one row, without a script too", async (t) => {
  for (const javaScriptEnabled of [true, false]) {
    const page = await open(t, "/", { viewport: { width: 360, height: 780 }, javaScriptEnabled });
    const bar = await page.locator("header.top").boundingBox();
    assert.ok(bar.height < 80, `the bar is one row: ${bar.height}`);
    assert.equal(await page.locator(".app-nav a:visible").count(), 0);
    const menu = page.locator(".narrow-nav summary");
    const box = await menu.boundingBox();
    assert.ok(box.height >= 44 && box.width >= 44, "as large as a fingertip");
    await menu.focus();
    await page.keyboard.press("Enter");
    const links = page.locator(".narrow-nav a:visible");
    assert.equal(await links.count(), 5);
    for (const link of await links.all()) assert.ok((await link.boundingBox()).height >= 44);
    await links.getByText("Library").click();
    assert.equal(new URL(page.url()).pathname, "/library");
    if (javaScriptEnabled) await noViolation(page, "the menu");
    await page.close();
  }
});

test("on a telephone nothing is wider than the screen, and all there is to hit is large enough", async (t) => {
  const page = await open(t, "/", { viewport: { width: 360, height: 780 }, hasTouch: true, isMobile: true });
  const job = await begin(page, "bills-house");
  const places = ["/", "/new", "/controls", "/library", "/preferences", "/help",
    ...["survey", "survey/house", "survey/rooms", "survey/circuits", "settings", "curve", "boiler-room", "year", "visit", "handover", "follow-up", "papers", "history"].map((p) => `${job}/${p}`)];
  for (const place of places) {
    await page.goto(place.startsWith("/") ? server.url + place : place);
    const found = await page.evaluate(() => {
      const small = [];
      for (const e of document.querySelectorAll("a, button, input, select, summary, textarea")) {
        const box = e.getBoundingClientRect();
        if (!box.width || !box.height || e.matches(".unseen, .skip, .asks-why")) continue; // figures that lead to their working reach beyond their letters
        if (e.tagName === "A" && getComputedStyle(e).display === "inline") continue; // in a sentence
        const label = e.closest("label") ?? e;
        if (label.getBoundingClientRect().height < 43.5 && box.height < 43.5 && e.type !== "range") small.push(`${e.tagName} ${e.className} ${(e.textContent || e.name).trim().slice(0, 30)} ${Math.round(box.height)}`);
      }
      return { wide: document.documentElement.scrollWidth, small };
    });
    assert.equal(found.wide, 360, `${place} is as wide as the screen`);
    assert.deepEqual(found.small, [], `${place}: large enough to hit`);
  }
});
