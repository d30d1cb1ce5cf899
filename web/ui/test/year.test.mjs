// Walks through what a year asks of the survey: the plant, the program, the control as it
// was found; then the year itself.
import assert from "node:assert/strict";
import { test } from "node:test";
import { field, noViolation, saved } from "./page.mjs";
import { browser, server } from "./running.mjs";

/** A job begun from an example, at one of its places, on a page that must not complain. */
async function open(t, example, place, options = {}) {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, reducedMotion: "reduce", locale: "en-US", ...options });
  t.after(() => context.close());
  const page = await context.newPage();
  const complaints = [];
  page.on("console", (m) => {
    if (["error", "warning"].includes(m.type())) complaints.push(m.text());
  });
  page.on("pageerror", (e) => complaints.push(String(e)));
  t.after(() => assert.deepEqual(complaints, [], "complaints in the console"));
  const begun = await page.request.post(`${server.url}/jobs`, { form: { example }, maxRedirects: 0 });
  page.at = server.url + begun.headers().location.replace("/survey", "");
  await page.goto(`${page.at}/${place}`);
  return page;
}

/** Fills a field, or chooses in it, wherever it is folded away. */
async function answer(page, path, text) {
  const f = field(page, path);
  await f.evaluate((e) => {
    for (let d = e.closest("details"); d; d = d.parentElement.closest("details")) d.open = true;
  });
  if ((await f.evaluate((e) => e.tagName)) === "SELECT") await f.selectOption(text);
  else await f.fill(text);
  await f.blur();
  await saved(page);
}

async function play(page) {
  await page.goto(`${page.at}/year`);
  await page.locator("#play").click();
  await page.waitForSelector('#year[aria-busy="false"] #played', { timeout: 20_000 });
}

const heads = (page) => page.locator("#played .compare").first().locator("thead th").allInnerTexts();
const figure = async (page, row) => (await page.locator(`#played tr:has(th:text-matches("^${row}")) td`).first().innerText()).trim();
const count = (text) => Number(text.replace(/[^0-9]/g, ""));

test("the control as it was found is surveyed, and played beside the sheet", async (t) => {
  const page = await open(t, "short-survey", "survey/control");
  await page.locator('[value="add as_found.curves"]').click();
  for (const [path, text] of [["curves[0].cold_outdoor", "0"], ["curves[0].cold_supply", "190"], ["curves[0].mild_outdoor", "60"], ["curves[0].mild_supply", "130"]]) {
    await field(page, `as_found.${path}`).fill(text);
  }
  await field(page, "as_found.curves[0].mild_supply").blur();
  await saved(page);
  await answer(page, "as_found.cut_off", "70");
  await noViolation(page, "the survey of the control");
  await page.goto(`${page.at}/curve`);
  assert.match(await page.locator("#judged-0").innerText(), /As found/i, "the curve as found is not beside the recommended one");
  await play(page);
  assert.deepEqual((await heads(page)).map((h) => h.toLowerCase()), ["the sheet", "as-found", "preset", "fixed"]);
  assert.match(await page.locator("#played").innerText(), /A check by hand/);
  await noViolation(page, "the year");
});

test("a buffer, from which the tank draws, is filled in and played", async (t) => {
  const page = await open(t, "ridge-house", "year");
  await play(page);
  const header = count(await figure(page, "Starts"));
  await page.goto(`${page.at}/survey/boiler-room`);
  await answer(page, "separator.volume", "40");
  await answer(page, "separator.kind", "three-pipe buffer");
  await answer(page, "system.content", "150");
  await page.goto(`${page.at}/survey/hot-water`);
  await answer(page, "hot_water.takes_from", "buffer");
  await play(page);
  const buffered = count(await figure(page, "Starts"));
  assert.ok(buffered < header, `${buffered} starts with a buffer, ${header} with a header`);
});

test("a combi and a program are filled in and played", async (t) => {
  const page = await open(t, "combi-slab", "survey/hot-water");
  await play(page);
  const alone = count(await figure(page, "Starts"));
  await page.goto(`${page.at}/survey/hot-water`);
  await answer(page, "hot_water.people", "5");
  await page.goto(`${page.at}/survey/habits`);
  await answer(page, "program.wish", "night");
  await play(page);
  const family = count(await figure(page, "Starts"));
  assert.ok(family > alone, `${family} starts for five people, ${alone} for two`);
  assert.match(await page.locator("#played").innerText(), /each draw of it is a start/);
});
