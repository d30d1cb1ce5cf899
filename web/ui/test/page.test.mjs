// Walks through the page as a person takes them, in a real browser on the real server.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { axeSource, examples, launch, serve } from "./page.mjs";

let server, browser;
before(async () => {
  server = await serve();
  browser = await launch();
});
after(async () => {
  await browser?.close();
  server?.stop();
});

/** A page that fails the test if anything is complained about in its console. */
async function open(t, address = "/", options = {}) {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, reducedMotion: "reduce", ...options });
  const page = await context.newPage();
  const complaints = [];
  page.on("console", (m) => {
    // A page with faults has status 422, which the browser notes by itself.
    if (["error", "warning"].includes(m.type()) && !m.text().includes("422")) complaints.push(m.text());
  });
  page.on("pageerror", (e) => complaints.push(String(e)));
  await page.goto(server.url + address);
  t.after(async () => {
    await context.close();
    assert.deepEqual(complaints, [], "complaints in the console");
  });
  return page;
}

const supply = (page) => page.locator("dd[data-supply]").first().innerText();
const field = (page, path) => page.locator(`[name="f.${path}"]`);
const design = "site.design_outdoor";

async function changed(page, from) {
  await page.waitForFunction((was) => document.querySelector("dd[data-supply]")?.innerText !== was, from, { timeout: 5000 });
}

test("every example is shown without a reload, and back goes back", async (t) => {
  const page = await open(t);
  await page.evaluate(() => (window.same = true));
  const seen = new Set();
  for (const name of examples) {
    await page.click(`a[data-example="${name}"]`);
    await page.waitForFunction((n) => document.querySelector("a[aria-current]")?.dataset.example === n, name);
    seen.add(await page.locator("#fields h2").innerText());
    assert.ok((await page.locator("figure.curve svg").count()) > 0, `${name} has a curve`);
  }
  assert.equal(seen.size, examples.length);
  await page.goBack();
  await page.waitForFunction((n) => document.querySelector("a[aria-current]")?.dataset.example === n, examples.at(-2));
  assert.equal(await page.evaluate(() => window.same), true, "the page was loaded again");
});

test("a number typed changes the supply at once and keeps focus and cursor", async (t) => {
  const page = await open(t, "/?example=short-survey");
  await page.evaluate(() => (window.same = true));
  const before = await supply(page);
  const input = field(page, design);
  await input.fill("-2");
  await changed(page, before);
  const after = await supply(page);
  await input.focus();
  await page.keyboard.press("End");
  const start = Date.now();
  await page.keyboard.type("0");
  await changed(page, after);
  const took = Date.now() - start;
  t.diagnostic(`from key to new figures: ${took} ms`);
  assert.ok(took < 1000, `${took} ms from key to new figures`);
  assert.equal(await input.inputValue(), "-20");
  assert.equal(await input.evaluate((e) => document.activeElement === e && e.selectionStart), 3);
  assert.equal(await page.evaluate(() => window.same), true, "the page was loaded again");
  assert.match(await page.locator("#document").inputValue(), /design_outdoor: -20 °F/);
  assert.match(await page.locator("#headline").innerText(), /−20/);
});

test("answers that come late are dropped", async (t) => {
  const page = await open(t, "/?example=short-survey");
  let held = 0;
  await page.route("**/solve", async (route) => {
    // The first answer is held back until long after the second.
    if (held++ === 0) await new Promise((done) => setTimeout(done, 900));
    await route.continue().catch(() => undefined);
  });
  const input = field(page, design);
  await input.fill("-30");
  await page.waitForTimeout(250);
  await input.fill("10");
  await page.waitForFunction(() => document.querySelector("#headline")?.innerText.includes("10\u00a0°F"));
  const shown = await supply(page);
  await page.waitForTimeout(1200);
  assert.equal(await supply(page), shown);
  assert.equal(await input.inputValue(), "10");
});

test("switching units there and back gives the same page", async (t) => {
  for (const name of examples) {
    const page = await open(t, `/?example=${name}`);
    const text = () => page.locator("#results").innerText();
    const values = () => page.locator("[data-field] .entry input").evaluateAll((all) => all.map((e) => e.value));
    const [own, other] = (await page.locator('input[name="units"]:checked').inputValue()) === "us" ? ["us", "si"] : ["si", "us"];
    const was = [await text(), await values(), await page.locator("#document").inputValue()];
    const sign = other === "si" ? "°C" : "°F";
    await page.locator(`input[name="units"][value="${other}"]`).check({ force: true });
    await page.waitForFunction((s) => document.querySelector("dd[data-supply]")?.innerText.includes(s), sign);
    await page.locator(`input[name="units"][value="${own}"]`).check({ force: true });
    await page.waitForFunction((s) => !document.querySelector("dd[data-supply]")?.innerText.includes(s), sign);
    assert.deepEqual([await text(), await values(), await page.locator("#document").inputValue()], was, name);
  }
});

test("without script the form does the same", async (t) => {
  const page = await open(t, "/?example=short-survey", { javaScriptEnabled: false });
  const before = await page.locator("dd[data-supply]").first().textContent();
  await field(page, design).fill("-20");
  await page.locator("#fields button.main").click();
  assert.notEqual(await page.locator("dd[data-supply]").first().textContent(), before);
  assert.equal(await field(page, design).inputValue(), "-20");
  await page.locator('input[name="units"][value="si"]').check({ force: true });
  await field(page, design).press("Enter");
  assert.match(await page.locator("dd[data-supply]").first().textContent(), /°C/);
  await page.click('a[data-example="combi-slab"]');
  assert.equal(await page.locator("#fields h2").textContent(), "Varga house");
});

test("a value that cannot be is told at its field and keeps what was typed", async (t) => {
  const page = await open(t, "/?example=short-survey");
  const before = await supply(page);
  const input = field(page, "circuits[0].emitters[0].fin_tube.length");
  await input.fill("12 gpm");
  await page.waitForSelector(".field.wrong .fault");
  assert.equal(await input.getAttribute("aria-invalid"), "true");
  assert.match(await page.locator(".field.wrong .fault").innerText(), /Accepted/);
  assert.equal(await input.inputValue(), "12 gpm");
  assert.equal(await supply(page), before);
  await input.fill("90");
  await changed(page, before);
  assert.equal(await page.locator(".field.wrong").count(), 0);
  assert.equal(await input.getAttribute("aria-invalid"), null);
});

test("a bad document shows its faults and keeps the text", async (t) => {
  const page = await open(t);
  await page.click("#own summary");
  const bad = "curvewright: 1\njob: Mine\nsite:\n  design_outdoor: -6\ncircuits:\n  - nam: One\n";
  await page.fill("#document", bad);
  await page.waitForSelector("#faults");
  const faults = await page.locator("#faults").innerText();
  for (const want of ["line 4", "has no unit", "70 °F", "nam", "is not a field here"]) assert.ok(faults.includes(want), `${want} in ${faults}`);
  assert.equal(await page.inputValue("#document"), bad);
  assert.ok(await page.locator("#own").getAttribute("open") !== null);
  await page.fill("#document", bad.replace("-6", "-6 °F").replace("nam:", "name:"));
  await page.waitForFunction(() => !document.querySelector("#faults")?.innerText.includes("has no unit"));
});

test("a file is opened", async (t) => {
  const page = await open(t);
  const document = (await page.inputValue("#document")).replace("Quillon house", "Brought house").replace("118 ft", "160 ft");
  await page.click("#own summary");
  await page.setInputFiles("#file", { name: "mine.yaml", mimeType: "text/yaml", buffer: Buffer.from(document) });
  await page.waitForFunction(() => window.document.querySelector("#fields h2")?.innerText === "Brought house");
  assert.equal(await page.inputValue("#document"), document);
  assert.equal(await page.inputValue("#file"), "");
  // What is typed next belongs to the new job.
  const before = await supply(page);
  await field(page, design).fill("-15");
  await changed(page, before);
  assert.match(await page.inputValue("#document"), /Brought house/);
});

test("sheets and documents can be taken along", async (t) => {
  const page = await open(t, "/?example=combi-slab");
  for (const [name, ending] of [["A4", ".pdf"], ["Letter", ".pdf"], ["YAML", ".yaml"], ["JSON", ".json"]]) {
    const [got] = await Promise.all([page.waitForEvent("download"), page.click(`.keep button:has-text("${name}")`)]);
    assert.equal(got.suggestedFilename(), `varga-house${ending}`);
  }
});

test("the curve is read with pointer, touch and keyboard", async (t) => {
  const page = await open(t, "/?example=short-survey", { hasTouch: true });
  const out = page.locator(".probe output").first();
  const slider = page.locator(".probe input").first();
  await slider.focus();
  await page.keyboard.press("Home");
  assert.match(await out.innerText(), /outdoors −6 °F/);
  const cold = await supply(page);
  assert.ok((await out.innerText()).includes(cold.replace("°F", "")), `${await out.innerText()} has ${cold}`);
  await page.keyboard.press("ArrowRight");
  const stepped = await out.innerText();
  assert.match(stepped, /outdoors −5 °F/);
  const box = await page.locator("figure.curve .drawing.wide .touch").first().boundingBox();
  await page.mouse.move(box.x + box.width * 0.6, box.y + box.height / 2);
  const moved = (from) => page.waitForFunction((was) => document.querySelector(".probe output").innerText !== was, from, { timeout: 3000 });
  await moved(stepped);
  const hovered = await out.innerText();
  await page.touchscreen.tap(box.x + box.width * 0.3, box.y + box.height / 2);
  await moved(hovered);
});

test("an unfolded working stays unfolded while numbers change", async (t) => {
  const page = await open(t, "/?example=short-survey");
  const working = page.locator("details[id$='-design-supply-more']").first();
  await working.locator("summary").click();
  assert.match(await working.innerText(), /Source/);
  const before = await supply(page);
  await field(page, design).fill("3");
  await changed(page, before);
  assert.notEqual(await page.locator("details[id$='-design-supply-more']").first().getAttribute("open"), null);
});

test("a phone shows everything within its width and the result at once", async (t) => {
  for (const name of examples) {
    const page = await open(t, `/?example=${name}`, { viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true });
    await page.evaluate(() => document.querySelectorAll("details").forEach((d) => (d.open = true)));
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    assert.ok(wide <= 360, `${name}: ${wide} px wide`);
    await page.evaluate(() => scrollTo(0, 1500));
    const bar = await page.locator("#headline").boundingBox();
    assert.ok(bar.y >= 0 && bar.y < 5, `${name}: the figures stay in sight`);
    assert.ok(bar.height < 110, `${name}: the bar takes ${bar.height} px`);
    await page.tap("#headline .jump");
    await page.waitForFunction(() => {
      const top = document.querySelector("#results").getBoundingClientRect().top;
      return top >= 0 && top < 300;
    });
  }
});

test("no barrier that WCAG 2.2 AA names", async (t) => {
  for (const colorScheme of ["light", "dark"]) {
    for (const width of [360, 1440]) {
      for (const name of examples) {
        const page = await open(t, `/?example=${name}`, { colorScheme, viewport: { width, height: 800 }, bypassCSP: true });
        await barriers(page, `${name} ${width} ${colorScheme}`);
        await page.evaluate(() => document.querySelectorAll("details").forEach((d) => (d.open = true)));
        await barriers(page, `${name} ${width} ${colorScheme}, all unfolded`);
      }
    }
    const page = await open(t, "/", { colorScheme, bypassCSP: true });
    await page.click("#own summary");
    await field(page, design).fill("cold");
    await page.waitForSelector(".field.wrong");
    await barriers(page, `faulty field ${colorScheme}`);
    await page.fill("#document", "job: mine");
    await page.waitForSelector("#faults");
    await barriers(page, `faulty document ${colorScheme}`);
  }
});

async function barriers(page, where) {
  await page.evaluate(axeSource);
  const found = await page.evaluate(async () => {
    const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
    const { violations } = await window.axe.run(document, { runOnly: { type: "tag", values: tags } });
    return violations.map((v) => `${v.id}: ${v.nodes.slice(0, 3).map((n) => `${n.html.slice(0, 160)} ${n.failureSummary ?? ""}`).join(" | ")}`);
  });
  assert.deepEqual(found, [], where);
}
