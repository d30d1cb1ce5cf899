// Walks through jobs that are kept, as a person takes them.
import assert from "node:assert/strict";
import { test } from "node:test";
import { field, noViolation, saved } from "./page.mjs";
import { browser, server } from "./running.mjs";

/** A page that fails the test if anything is complained about in its console. */
async function open(t, address = "/", options = {}) {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, reducedMotion: "reduce", locale: "en-US", ...options });
  const page = await context.newPage();
  listen(t, page);
  await page.goto(server.url + address);
  t.after(() => context.close());
  return page;
}

function listen(t, page) {
  const complaints = [];
  page.on("console", (m) => {
    // A page with faults has status 422, which the browser notes by itself.
    if (["error", "warning"].includes(m.type()) && !/422|ERR_INTERNET_DISCONNECTED/.test(m.text())) complaints.push(m.text());
  });
  page.on("pageerror", (e) => complaints.push(String(e)));
  t.after(() => assert.deepEqual(complaints, [], "complaints in the console"));
}

/** Begins a job from an example and gives its address. */
async function begin(page, example = "short-survey") {
  await page.goto(`${server.url}/`);
  await page.click(`form:has(input[value="${example}"]) button.start`);
  await page.waitForURL(/\/jobs\/.*\/survey/);
  return new URL(page.url()).pathname.replace(/\/survey.*/, "");
}

const supply = (page) => page.locator("[data-supply]").first().innerText();

test("from the first start to a settings sheet in the short way", async (t) => {
  const page = await open(t);
  await page.getByRole("link", { name: "New job" }).click();
  await field(page, "job").fill("Tolliver house");
  await field(page, "site.design_outdoor").fill("-4");
  await field(page, "house.floor_area").fill("1800");
  await field(page, "house.era").selectOption("1946-1979");
  await field(page, "house.insulation").selectOption("improved");
  await field(page, "house.glazing").selectOption("double");
  await page.locator('[name="f.heats"]').selectOption("fin-tube");
  await page.getByRole("button", { name: "Make the settings" }).click();
  await page.waitForURL(/\/survey/);
  assert.match(await supply(page), /^\d+/);
  await page.getByRole("link", { name: "Settings", exact: true }).click();
  assert.ok((await page.locator(".setting").count()) > 8, "there is a sheet with its lines");
  const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("link", { name: /PDF/ }).click()]);
  assert.match(download.suggestedFilename(), /tolliver-house\.pdf/);
});

test("an answer changes the figures at once and is saved by itself", async (t) => {
  const page = await open(t);
  const at = await begin(page);
  await page.goto(`${server.url}${at}/survey/house`);
  const was = await supply(page);
  await field(page, "site.design_outdoor").fill("-25");
  await page.waitForFunction((w) => document.querySelector("[data-supply]")?.innerText !== w, was);
  await saved(page);
  assert.equal(await page.evaluate(() => document.activeElement?.getAttribute("name")), "f.site.design_outdoor", "the focus is still there");
  await page.reload();
  assert.equal(await field(page, "site.design_outdoor").inputValue(), "-25");
  await page.goto(`${server.url}${at}/history`);
  assert.match(await page.locator(".past").innerText(), /design outdoor.*−6.*−25/i);
});

test("undo and redo, by button and by keyboard", async (t) => {
  const page = await open(t);
  const at = await begin(page);
  await page.goto(`${server.url}${at}/survey/house`);
  await field(page, "house.setpoint").fill("66");
  await saved(page);
  await page.getByRole("button", { name: "Undo" }).click();
  await page.waitForFunction(() => document.querySelector('[name="f.house.setpoint"]').value === "70");
  await page.getByRole("button", { name: "Redo" }).click();
  await page.waitForFunction(() => document.querySelector('[name="f.house.setpoint"]').value === "66");
  await page.locator("h1").click();
  await page.keyboard.press("Control+z");
  await page.waitForFunction(() => document.querySelector('[name="f.house.setpoint"]').value === "70");
  await page.keyboard.press("Control+Shift+z");
  await page.waitForFunction(() => document.querySelector('[name="f.house.setpoint"]').value === "66");
});

test("rooms by the keyboard alone", async (t) => {
  const page = await open(t);
  const at = await begin(page);
  await page.goto(`${server.url}${at}/survey/rooms`);
  await page.locator('[name="f.rooms[0].name"]').focus();
  const rooms = [["Kitchen", "160", "5200", "10"], ["Parlour", "220", "6400", "14"], ["Study", "110", "3100", "7"]];
  for (const [i, [name, area, load, feet]] of rooms.entries()) {
    await page.keyboard.type(name);
    await page.keyboard.press("Tab");
    await page.keyboard.type(area);
    await page.keyboard.press("Tab"); // the set-point stays the house's
    await page.keyboard.press("Tab");
    await page.keyboard.type(load);
    await page.keyboard.press("Tab");
    await page.keyboard.type("Fin");
    await page.keyboard.press("Tab");
    await page.keyboard.type(feet);
    await page.keyboard.press("Enter");
    await page.waitForFunction((n) => document.activeElement?.getAttribute("data-cell") === `${n},5`, i + 1);
    for (let k = 0; k < 5; k++) await page.keyboard.press("Shift+Tab");
    assert.equal(await page.evaluate(() => document.activeElement?.getAttribute("data-cell")), `${i + 1},0`);
  }
  await saved(page);
  await page.reload();
  assert.equal(await page.locator("tr[data-row]:not(.blank)").count(), rooms.length);
  assert.equal(await page.locator('[name="f.rooms[2].name"]').inputValue(), "Study");
  assert.equal(await page.locator('[name="s.rooms[1]"]').inputValue(), "14");
});

test("a spreadsheet is pasted into the table of rooms", async (t) => {
  const page = await open(t);
  const at = await begin(page);
  await page.goto(`${server.url}${at}/survey/rooms`);
  await page.locator('[data-cell="0,0"]').focus();
  await page.evaluate(() => {
    const data = new DataTransfer();
    const line = (i) => `Room ${i}\t${100 + i} ft²\t\t${2000 + 10 * i} Btu/h\tbaseboard\t${6 + i} ft`;
    data.setData("text/plain", Array.from({ length: 20 }, (_, i) => line(i + 1)).join("\n"));
    document.activeElement.dispatchEvent(new ClipboardEvent("paste", { clipboardData: data, bubbles: true, cancelable: true }));
  });
  await page.waitForFunction(() => document.querySelectorAll("tr[data-row]:not(.blank)").length === 20);
  assert.equal(await page.locator('[name="f.rooms[19].name"]').inputValue(), "Room 20");
  assert.equal(await page.locator('[name="s.rooms[19]"]').inputValue(), "26");
});

test("units and language change everywhere, and nothing drifts", async (t) => {
  const page = await open(t);
  const at = await begin(page);
  t.after(() => fetch(`${server.url}/preferences`, { method: "POST", body: new URLSearchParams() }));
  const choose = async (language, units) => {
    await page.goto(`${server.url}/preferences`);
    await page.selectOption("#p-language", language);
    await page.selectOption("#p-units", units);
    await page.locator("form.sheet button.main").click();
    await page.waitForURL(/saved/);
  };
  for (const [language, word] of [["de", "Aufnahme"], ["fr", "Relevé"], ["es", "Inspección"]]) {
    await choose(language, "si");
    await page.goto(`${server.url}${at}/survey/house`);
    assert.equal(await page.locator("html").getAttribute("lang"), language);
    assert.match(await page.locator(".places").innerText(), new RegExp(word));
    assert.equal(await field(page, "house.setpoint").inputValue(), "21,1");
  }
  await choose("en", "us");
  await page.goto(`${server.url}${at}/survey/house`);
  assert.equal(await field(page, "house.setpoint").inputValue(), "70");
  await page.goto(`${server.url}${at}/history`);
  assert.equal(await page.locator(".past li").count(), 1, "looking at it in other units changed it");
});

test("two tabs on one job never lose an answer", async (t) => {
  const page = await open(t);
  const at = await begin(page);
  await page.goto(`${server.url}${at}/survey/house`);
  const other = await page.context().newPage();
  listen(t, other);
  await other.goto(`${server.url}${at}/survey/house`);
  await field(page, "site.design_outdoor").fill("-15");
  await field(other, "house.setpoint").fill("67");
  await Promise.all([saved(page), saved(other)]);
  await other.waitForFunction(() => document.querySelector('[name="f.site.design_outdoor"]').value === "-15");
  await page.reload();
  assert.equal(await field(page, "house.setpoint").inputValue(), "67");
  // The same question, answered differently in both: the second is told.
  await field(page, "house.floor_area").fill("2000");
  await saved(page);
  await field(other, "house.floor_area").fill("2200");
  await other.locator('[data-field="house.floor_area"].wrong').waitFor();
  assert.match(await other.locator('[data-field="house.floor_area"]').innerText(), /2,?000/);
  assert.equal(await field(other, "house.floor_area").inputValue(), "2200");
});

test("bad input in each kind of field stands at its field and keeps what was typed", async (t) => {
  const page = await open(t);
  const at = await begin(page, "ridge-house");
  for (const [part, path, typed] of [
    ["house", "site.design_outdoor", "rather cold"],
    ["house", "house.floor_area", "1850 °F"],
    ["house", "house.storeys", "two and a half"],
    ["house", "site.elevation", "12 parsecs"],
    ["boiler-room", "boiler.output", "-5"],
    ["habits", "program.wake_up", "25:99"],
  ]) {
    await page.goto(`${server.url}${at}/survey/${part}`);
    const input = field(page, path);
    await page.evaluate(() => document.querySelectorAll("details.seldom").forEach((d) => (d.open = true)));
    await input.fill(typed);
    await page.keyboard.press("Tab");
    assert.equal(await input.inputValue(), typed, `${path} keeps what was typed`);
    await page.waitForFunction((p) => document.querySelector(`[data-field="${p}"] .fault`) || document.querySelector("#gaps"), path);
  }
});

test("without a connection the page says so, keeps what was typed, and saves later", async (t) => {
  const page = await open(t);
  const at = await begin(page);
  await page.goto(`${server.url}${at}/survey/house`);
  await page.context().setOffline(true);
  await field(page, "house.setpoint").fill("65");
  await page.locator("[data-kept].away").waitFor();
  assert.equal(await field(page, "house.setpoint").inputValue(), "65");
  await page.context().setOffline(false);
  await saved(page);
  await page.reload();
  assert.equal(await field(page, "house.setpoint").inputValue(), "65");
});

test("without the script the forms do it all", async (t) => {
  const page = await open(t, "/", { javaScriptEnabled: false });
  const at = await begin(page);
  await page.goto(`${server.url}${at}/survey/house`);
  await field(page, "site.design_outdoor").fill("-11");
  await page.getByRole("button", { name: "Save and work it out" }).last().click();
  assert.equal(await field(page, "site.design_outdoor").inputValue(), "-11");
  await page.getByRole("button", { name: "Undo" }).click();
  await page.goto(`${server.url}${at}/survey/house`);
  assert.equal(await field(page, "site.design_outdoor").inputValue(), "-6");
});

test("every page can be used by everybody, at every width", async (t) => {
  for (const width of [360, 768, 1440]) {
    const page = await open(t, "/", { viewport: { width, height: 850 }, colorScheme: width === 768 ? "dark" : "light" });
    const at = await begin(page, "ridge-house");
    const pages = ["/", "/new", "/preferences", "/controls"];
    for (const part of ["short", "house", "rooms", "circuits", "boiler-room", "hot-water", "habits", "control"]) pages.push(`${at}/survey/${part}`);
    for (const place of ["settings", "boiler-room", "year", "history"]) pages.push(`${at}/${place}`);
    for (const address of pages) {
      await page.goto(server.url + address);
      const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      assert.ok(over <= 0, `${address} at ${width} px is ${over} px too wide`);
      await noViolation(page, `${address} at ${width} px`);
    }
  }
});

test("how fast and how heavy it is", async (t) => {
  const page = await open(t);
  const at = await begin(page, "ridge-house");
  const cold = await browser.newContext();
  const first = await cold.newPage();
  const client = await cold.newCDPSession(first);
  await client.send("Network.enable");
  let bytes = 0;
  client.on("Network.loadingFinished", (e) => (bytes += e.encodedDataLength));
  const began = Date.now();
  await first.goto(`${server.url}${at}/survey/house`, { waitUntil: "load" });
  t.diagnostic(`first page ${Date.now() - began} ms, ${Math.round(bytes / 1000)} kB over the wire`);
  assert.ok(bytes < 300_000, `${bytes} bytes`);
  await cold.close();
  await page.goto(`${server.url}${at}/survey/house`);
  const times = [];
  for (let i = 0; i < 40; i++) {
    await page.evaluate(() => {
      const figures = document.getElementById("results");
      window.done = new Promise((resolve) => {
        const began = performance.now();
        new MutationObserver((_, o) => {
          o.disconnect();
          resolve(performance.now() - began);
        }).observe(figures.parentElement, { childList: true });
      });
    });
    await field(page, "site.design_outdoor").pressSequentially(i % 2 ? "1" : "\b", { delay: 0 });
    await field(page, "site.design_outdoor").fill(String(-6 - (i % 9)));
    times.push(await page.evaluate(() => window.done));
  }
  times.sort((a, b) => a - b);
  t.diagnostic(`from key to new figures: half within ${Math.round(times[20])} ms, 19 of 20 within ${Math.round(times[38])} ms`);
});
