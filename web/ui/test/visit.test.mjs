// Walks through a visit on a telephone, and closes the page in the middle of it.
import assert from "node:assert/strict";
import { test } from "node:test";
import { field, noViolation, saved } from "./page.mjs";
import { browser, server } from "./running.mjs";

async function phone(t) {
  const context = await browser.newContext({ viewport: { width: 360, height: 780 }, hasTouch: true, isMobile: true, reducedMotion: "reduce", locale: "en-US" });
  t.after(() => context.close());
  return context;
}

async function begin(page, example = "ridge-house") {
  await page.goto(`${server.url}/`);
  await page.click(`form:has(input[value="${example}"]) button.start`);
  await page.waitForURL(/\/survey/);
  await page.goto(page.url().replace(/survey.*/, "visit"));
  await page.getByRole("button", { name: "Begin a visit" }).click();
  await page.waitForURL(/\/visit\/.+/);
  return page.url();
}

test("a visit on a telephone survives a page that is closed in the middle", async (t) => {
  const context = await phone(t);
  let page = await context.newPage();
  const at = await begin(page);
  await page.locator(".picks label", { hasText: "Done" }).first().click();
  await saved(page);
  await page.goto(`${at}/readings`);
  await field(page, "conditions.outdoor").fill("20");
  await saved(page);
  await context.route("**", (route) => route.request().method() === "POST" ? route.abort() : route.continue()); // no signal
  await field(page, "readings.boiler.supply").fill("136");
  await field(page, "readings.circuits[0].supply").fill("135");
  await field(page, "readings.circuits[1].supply").fill("95");
  await page.locator("[data-kept].away").waitFor();
  await page.close({ runBeforeUnload: false });
  await context.unroute("**");
  page = await context.newPage();
  await page.goto(`${at}/readings`);
  await saved(page);
  assert.equal(await field(page, "readings.boiler.supply").inputValue(), "136");
  assert.equal(await field(page, "readings.circuits[1].supply").inputValue(), "95");
  await page.reload();
  assert.equal(await field(page, "readings.circuits[0].supply").inputValue(), "135", "it is on the server by now");
  await page.goto(`${at}/before-power`);
  assert.ok(await page.locator(".picks input:checked").count(), "the ticked step is still ticked");
});

test("readings are judged as they come in, and the likeliest cause is named", async (t) => {
  const page = await (await phone(t)).newPage();
  const at = await begin(page);
  await page.goto(`${at}/readings`);
  await field(page, "conditions.outdoor").fill("20");
  await page.getByRole("heading", { name: /everything should read/ }).waitFor();
  await field(page, "readings.circuits[1].wanted").fill("94");
  await field(page, "readings.circuits[1].supply").fill("130");
  await page.locator(".judged tr.wrong").first().waitFor();
  await page.locator(".causes li").first().waitFor();
  assert.match(await page.locator(".causes").innerText(), /mixing valve/i);
  for (const section of ["", "/settings", "/first-firing", "/readings", "/sign-off"]) {
    await page.goto(at + section);
    const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    assert.ok(over <= 0, `${section} is ${over} px too wide`);
    await noViolation(page, section);
  }
});

test("a visit is signed with the finger and then stays as it is", async (t) => {
  const page = await (await phone(t)).newPage();
  const at = await begin(page, "short-survey");
  await page.goto(`${at}/sign-off`);
  await page.locator("#p-who").fill("Orla Penhallow");
  const pad = page.locator("canvas.pad");
  await pad.scrollIntoViewIfNeeded();
  const box = await pad.boundingBox();
  await page.mouse.move(box.x + 30, box.y + 60);
  await page.mouse.down();
  await page.mouse.move(box.x + 120, box.y + 30, { steps: 5 });
  await page.mouse.move(box.x + 200, box.y + 90, { steps: 5 });
  await page.mouse.up();
  await page.getByRole("button", { name: "Sign and close" }).click();
  await page.locator(".signed img").waitFor();
  assert.ok(await page.locator(".signed img").evaluate((i) => i.complete && i.naturalWidth > 0), "the signature is shown");
  await page.goto(at);
  assert.equal(await page.locator("form[data-live]").count(), 0, "a signed visit can still be changed");
});
