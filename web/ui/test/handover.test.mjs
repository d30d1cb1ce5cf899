// Takes photographs at steps of a visit on a telephone, and looks at what is handed over.
import assert from "node:assert/strict";
import { test } from "node:test";
import { noViolation, saved } from "./page.mjs";
import { browser, server } from "./running.mjs";

async function visit(t, example = "ridge-house") {
  const context = await browser.newContext({ viewport: { width: 360, height: 780 }, hasTouch: true, isMobile: true, reducedMotion: "reduce", locale: "en-US" });
  t.after(() => context.close());
  const page = await context.newPage();
  await page.goto(`${server.url}/`);
  await page.click(`form:has(input[value="${example}"]) button.start`);
  await page.waitForURL(/\/survey/);
  const job = page.url().replace(/\/survey.*/, "");
  await page.goto(`${job}/visit`);
  await page.getByRole("button", { name: "Begin a visit" }).click();
  await page.waitForURL(/\/visit\/.+/);
  return { page, job, at: page.url() };
}

const clean = async (page, where) => {
  const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  assert.ok(over <= 0, `${where} is ${over} px too wide`);
  await noViolation(page, where);
};

/** A photograph as large as a telephone takes it. */
const picture = (page) => page.evaluate(async () => {
  const canvas = document.createElement("canvas");
  canvas.width = 4000;
  canvas.height = 3000;
  const pen = canvas.getContext("2d");
  pen.fillStyle = "#a33";
  pen.fillRect(500, 500, 2000, 1500);
  const blob = await new Promise((done) => canvas.toBlob(done, "image/jpeg", 0.95));
  return Array.from(new Uint8Array(await blob.arrayBuffer()));
});

/** How many pages a page of this browser prints on. */
const sheets = async (page) => {
  const pdf = (await page.pdf({ format: "A4", printBackground: true })).toString("latin1");
  return (pdf.match(/\/Type\s*\/Page[^s]/g) ?? []).length;
};

test("a photo is taken at a step with one touch, made smaller, shown and handed on", async (t) => {
  const { page, job, at } = await visit(t);
  await page.goto(`${at}/before-power`);
  const card = page.locator("#step-air");
  await card.locator(".picks label", { hasText: "Done" }).click();
  await saved(page);
  const data = Buffer.from(await picture(page));
  const chooser = page.waitForEvent("filechooser");
  await card.getByRole("link", { name: "Take a photo" }).click();
  await (await chooser).setFiles({ name: "IMG_1.jpg", mimeType: "image/jpeg", buffer: data });
  const shown = page.locator("#step-air .shots img");
  await shown.waitFor();
  await shown.scrollIntoViewIfNeeded();
  await page.waitForFunction(() => document.querySelector("#step-air .shots img")?.naturalWidth > 0);
  assert.equal(await shown.evaluate((i) => Math.max(i.naturalWidth, i.naturalHeight)), 2000, "it was not made smaller");
  assert.ok(await page.locator("#step-air .picks input:checked").count(), "the ticked step is still ticked");
  await clean(page, "a step with a photo");

  await page.goto(`${at}/settings`);
  await page.locator('[name="v.cut-off"]').fill("45");
  await page.getByText(/Heating stops at/).first().waitFor();
  await clean(page, "settings entered otherwise");

  await page.goto(`${job}/record`);
  assert.equal(await page.locator(".shots img").count(), 1, "the record has no photo");
  assert.ok(await page.locator(".shots img").evaluate((i) => i.complete && i.naturalWidth > 0));
  await page.getByText(/Heating stops at/).first().waitFor();
  await clean(page, "the record");

  await page.goto(`${job}/handover`);
  await clean(page, "the handover");
  for (const [name, kind] of [["record.pdf", "application/pdf"], ["readings.xlsx", "spreadsheetml"], ["everything.zip", "application/zip"]]) {
    const answer = await page.request.get(`${job}/${name}`);
    assert.equal(answer.status(), 200, name);
    assert.match(answer.headers()["content-type"], new RegExp(kind), name);
  }

  await page.goto(`${at}/before-power`);
  await page.locator("#step-air").getByRole("button", { name: "Remove photo" }).click();
  await page.waitForFunction(() => !document.querySelector("#step-air .shots"));
});

test("the household's sheet is one page in four languages", async (t) => {
  const { page, job } = await visit(t);
  for (const language of ["en", "fr", "es", "de"]) {
    await page.setViewportSize({ width: 900, height: 1200 });
    await page.goto(`${job}/household/${language}`);
    assert.equal(await page.locator("html").getAttribute("lang"), language);
    assert.equal(await sheets(page), 1, `${language} prints on more than one page`);
    await clean(page, `the sheet in ${language}`);
    const answer = await page.request.get(`${job}/household/${language}.pdf`);
    assert.equal(answer.status(), 200);
    assert.match((await answer.body()).toString("latin1"), /^%PDF/);
  }
});
