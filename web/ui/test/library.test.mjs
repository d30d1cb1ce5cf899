// Walks through the library, the files beside a job, the help and its tour.
import assert from "node:assert/strict";
import { test } from "node:test";
import { field, noViolation, saved } from "./page.mjs";
import { browser, server } from "./running.mjs";

/** A page that fails the test if anything is complained about in its console. */
async function open(t, address = "/", options = {}) {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, reducedMotion: "reduce", locale: "en-US", ...options });
  const page = await context.newPage();
  const complaints = [];
  page.on("console", (m) => {
    if (["error", "warning"].includes(m.type()) && !/422/.test(m.text())) complaints.push(m.text());
  });
  page.on("pageerror", (e) => complaints.push(String(e)));
  t.after(() => assert.deepEqual(complaints, [], "complaints in the console"));
  t.after(() => context.close());
  await page.goto(server.url + address);
  return page;
}

async function begin(page, example) {
  await page.goto(`${server.url}/`);
  await page.click(`form:has(input[value="${example}"]) button.start`);
  await page.waitForURL(/\/jobs\/.*\/survey/);
  return new URL(page.url()).pathname.replace(/\/survey.*/, "");
}

/** A photograph of a size, as a browser makes it, and what a telephone adds to it. */
async function photograph(page, width, height) {
  const bytes = await page.evaluate(async ([w, h]) => {
    const canvas = Object.assign(document.createElement("canvas"), { width: w, height: h });
    const pen = canvas.getContext("2d");
    for (let x = 0; x < w; x += 40) {
      pen.fillStyle = `hsl(${(x * 7) % 360} 60% 50%)`;
      pen.fillRect(x, 0, 40, h);
    }
    const packed = await new Promise((resolve) => canvas.toBlob(resolve, "image/jpeg", 0.95));
    return [...new Uint8Array(await packed.arrayBuffer())];
  }, [width, height]);
  const said = Buffer.from("Exif\0\0II*\0\b\0\0\0\0\0\0\0\0\0 taken at 52.3105 N 13.4050 E", "latin1");
  const segment = Buffer.concat([Buffer.from([0xff, 0xe1, 0, said.length + 2]), said]);
  const data = Buffer.from(bytes);
  return Buffer.concat([data.subarray(0, 2), segment, data.subarray(2)]);
}

async function fits(page, where) {
  const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  assert.ok(over <= 0, `${where} is ${over} px too wide`);
}

test("an own construction is described and used in a room", async (t) => {
  const page = await open(t, "/library");
  await page.selectOption("#p-kind", "construction");
  await page.fill("#p-name", "Straw bales, 400 mm");
  await page.getByRole("button", { name: "Begin", exact: true }).click();
  await page.waitForURL(/\/library\/.+/);
  await field(page, "constructions[0].u").fill("0.12 W/m²K");
  await saved(page);
  await page.locator(".own-figure").waitFor();

  const at = await begin(page, "ridge-house");
  await page.goto(`${server.url}${at}/survey/rooms?room=0`);
  await page.locator(".library-take > summary").first().click();
  await page.locator('[name="lib.constructions"]').selectOption({ label: "Straw bales, 400 mm" });
  await page.locator('[value="library constructions"]').click();
  const surface = field(page, "rooms[0].elements[0].construction");
  await page.waitForFunction(() => [...document.querySelectorAll('[name="f.rooms[0].elements[0].construction"] option')].some((o) => o.value.startsWith("Straw")));
  const was = await page.locator("[data-supply]").first().innerText();
  await surface.selectOption("Straw bales, 400 mm");
  await saved(page);
  await page.reload();
  assert.equal(await surface.inputValue(), "Straw bales, 400 mm");
  t.diagnostic(`supply ${was}, then ${await page.locator("[data-supply]").first().innerText()}`);

  // An emitter from the library, first without its length: that is told at the field.
  await page.locator('[id="b-rooms-0-emitters-library"] > summary').click();
  await page.locator('[name="lib.rooms[0].emitters"]').selectOption("panel-22-600");
  await page.locator('[value="library rooms[0].emitters"]').click();
  await page.locator('[data-field="lib-size.rooms[0].emitters"].wrong').waitFor();
  await page.locator('[name="lib-size.rooms[0].emitters"]').fill("4");
  await page.locator('[value="library rooms[0].emitters"]').click();
  await page.locator('[name="f.rooms[0].emitters[1].radiator.output"]').waitFor();
  assert.match(await page.locator('[name="f.rooms[0].emitters[1].name"]').inputValue(), /type 22, height 24 in/);
  await page.getByRole("button", { name: "Keep in the library" }).last().click();
  await page.getByText("Kept in the library for other jobs.").waitFor();
});

test("a photo is made smaller, loses its place, and is called otherwise", async (t) => {
  const page = await open(t);
  const at = await begin(page, "short-survey");
  await page.goto(`${server.url}${at}/papers`);
  await page.fill("#p-name", "Rating plate");
  await page.setInputFiles("#files", { name: "IMG_0007.jpg", mimeType: "image/jpeg", buffer: await photograph(page, 4000, 3000) });
  await page.getByRole("button", { name: "Add", exact: true }).click();
  const shown = page.locator(".print img");
  await shown.waitFor();
  await page.waitForFunction(() => document.querySelector(".print img")?.naturalWidth > 0);
  assert.deepEqual(await shown.evaluate((i) => [i.naturalWidth, i.naturalHeight]), [2000, 1500]);
  const kept = await page.evaluate(async () => [...new Uint8Array(await (await fetch(document.querySelector(".print img").src)).arrayBuffer())]);
  assert.ok(!Buffer.from(kept).includes("Exif"), "the photo still says where it was taken");
  assert.match(await page.locator(".print").innerText(), /Rating plate\.jpg/);
  await page.locator(".print summary").click();
  await page.getByLabel("Name", { exact: true }).fill("Plate of the boiler");
  await page.getByRole("button", { name: "Save" }).click();
  await page.getByText("Plate of the boiler.jpg").waitFor();

  await page.setInputFiles("#files", { name: "plan.svg", mimeType: "image/svg+xml", buffer: Buffer.from("<svg xmlns='http://www.w3.org/2000/svg'/>") });
  await page.getByRole("button", { name: "Add", exact: true }).click();
  await page.getByRole("alert").waitFor();
  assert.match(await page.getByRole("alert").innerText(), /plan\.svg.*Accepted/);

  await page.locator(".print summary").click();
  await page.getByRole("button", { name: /Remove/ }).click();
  await page.getByText("0 files").waitFor();
});

test("without the script the server takes the place out", async (t) => {
  const maker = await open(t);
  const buffer = await photograph(maker, 800, 600);
  const page = await open(t, "/", { javaScriptEnabled: false });
  const at = await begin(page, "short-survey");
  await page.goto(`${server.url}${at}/papers`);
  await page.setInputFiles("#files", { name: "photo.jpg", mimeType: "image/jpeg", buffer });
  await page.getByRole("button", { name: "Add", exact: true }).click();
  const address = await page.locator(".print img").getAttribute("src");
  const kept = Buffer.from(await (await fetch(server.url + address)).arrayBuffer());
  assert.ok(kept.length > 1000 && !kept.includes("52.3105"), "the photo still says where it was taken");

  await page.goto(`${server.url}${at}/survey/circuits`);
  await page.locator(".library-take > summary").first().click();
  await page.locator('[name="lib.circuits[0].emitters"]').selectOption("fin-tube-high");
  await page.locator('[name="lib-size.circuits[0].emitters"]').fill("12");
  await page.locator('[value="library circuits[0].emitters"]').click();
  assert.equal(await page.locator('[name="f.circuits[0].emitters[1].fin_tube.length"]').inputValue(), "12");
});

test("the tour leads through the example to its end", async (t) => {
  const page = await open(t, "/help");
  await page.getByRole("button", { name: "Take the tour" }).click();
  let stations = 0;
  for (;;) {
    const note = page.locator("aside.tour");
    await note.waitFor();
    stations++;
    assert.match(await note.innerText(), new RegExp(`Tour, ${stations} of `));
    const next = page.locator('aside.tour a[rel="next"]');
    if (!(await next.count())) break;
    await next.click();
    await page.waitForURL(new RegExp(`tour=${stations + 1}$`));
  }
  assert.ok(stations >= 10, `${stations} stations`);
  await page.getByRole("link", { name: "Now a house of your own" }).click();
  await page.waitForURL(/\/new/);
});

test("library, files and help can be used by everybody, at every width", async (t) => {
  for (const width of [360, 768, 1440]) {
    const page = await open(t, "/", { viewport: { width, height: 850 }, colorScheme: width === 768 ? "dark" : "light" });
    const at = await begin(page, "ridge-house");
    await page.goto(`${server.url}${at}/papers`);
    await page.setInputFiles("#files", [
      { name: "photo.jpg", mimeType: "image/jpeg", buffer: await photograph(page, 800, 600) },
      { name: "a-manual-with-a-name-that-is-quite-long-and-has-no-space-in-it.pdf", mimeType: "application/pdf", buffer: Buffer.from("%PDF-1.7\n") },
    ]);
    await page.getByRole("button", { name: "Add", exact: true }).click();
    await page.locator(".print").nth(1).waitFor();
    await page.goto(`${server.url}/library`);
    await page.selectOption("#p-kind", "radiator");
    await page.getByRole("button", { name: "Begin", exact: true }).click();
    await page.waitForURL(/\/library\/.+/);
    const own = new URL(page.url()).pathname;
    for (const address of ["/library", own, "/help", `${at}/papers`, `${at}/survey/rooms?room=0`, `${at}/survey/house`, `${at}/survey?tour=1`]) {
      await page.goto(server.url + address);
      await page.evaluate(() => document.querySelectorAll("details:not(.help):not(.more)").forEach((d) => (d.open = true)));
      await fits(page, `${address} at ${width} px`);
      await noViolation(page, `${address} at ${width} px`);
    }
  }
});
