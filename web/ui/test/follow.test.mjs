// A walk through the follow-up: a log is sent, confirmed and looked into, and what the
// household says is kept.
import assert from "node:assert/strict";
import { test } from "node:test";
import { axeSource } from "./page.mjs";
import { browser, server } from "./running.mjs";

/** A winter by the minute, in which a pipe came close to freezing for half a day. */
function winter(days) {
  const rows = ["time;outdoor °C;supply °C;return °C;room °C;burner 0/1"];
  const begin = Date.UTC(2026, 0, 5);
  for (let i = 0; i < days * 1440; i++) {
    const x = i / 1440;
    const out = -2 + 5 * Math.sin(x * 1.7) + 3 * Math.sin(x * 2 * Math.PI - 2);
    const supply = 21 + 1.2 * (21 - out);
    const back = x > 20 && x < 20.5 ? 2 : supply - 8;
    const at = new Date(begin + i * 60000).toISOString().slice(0, 16).replace("T", " ");
    rows.push(`${at};${out.toFixed(1)};${supply.toFixed(1)};${back.toFixed(1)};${(21 + Math.sin(x * 9) / 5).toFixed(1)};${Math.floor(i / 7) % 2}`);
  }
  return rows.join("\n");
}

async function begun(page) {
  await page.goto(`${server.url}/`);
  const answer = await page.evaluate(async () => {
    const r = await fetch("/jobs", { method: "POST", body: new URLSearchParams({ example: "short-survey" }) });
    return r.url;
  });
  return answer.replace(/(\/jobs\/[^/]+).*/, "$1");
}

async function sound(page, where) {
  await page.evaluate(axeSource);
  const faults = await page.evaluate(async () => (await window.axe.run()).violations.map((v) => `${v.id}: ${v.nodes[0]?.html}`));
  assert.deepEqual(faults, [], where);
}

async function sent(page, job, text) {
  await page.goto(`${job}/follow-up`);
  await page.setInputFiles("#log", { name: "winter.csv", mimeType: "text/csv", buffer: Buffer.from(text) });
  await page.click("form.import button[type=submit]");
  await page.waitForSelector("#columns[open]");
  await page.click("#columns button.main");
  await page.waitForSelector("#estimates-title");
}

const stretch = (page) => page.locator("#series").evaluate((e) => ({ first: Number(e.dataset.first), from: Number(e.dataset.from), to: Number(e.dataset.to) }));
const drawn = (page) => page.locator("#series").getAttribute("data-drawn");
const shown = async (page) => {
  const s = page.locator("#series");
  return Number(await s.getAttribute("data-to")) - Number(await s.getAttribute("data-from"));
};

test("a log is looked into", async () => {
  const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
  const faults = [];
  page.on("console", (m) => m.type() === "error" && faults.push(m.text()));
  page.on("pageerror", (e) => faults.push(String(e)));
  const job = await begun(page);
  await sent(page, job, winter(40));
  await page.waitForSelector("#series canvas");
  const whole = await shown(page);
  assert.ok(whole > 39 * 86400);
  await sound(page, "log");

  // With the keyboard.
  await page.focus(".series-sheet");
  await page.keyboard.press("+");
  await page.keyboard.press("+");
  assert.ok(Math.abs((await shown(page)) / whole - 0.25) < 0.01);
  await page.keyboard.press("ArrowLeft");
  await page.waitForFunction(() => document.getElementById("series").dataset.drawn);
  await page.keyboard.press("0");
  assert.equal(await shown(page), whole);

  // By dragging over it.
  const over = await page.locator(".u-over").boundingBox();
  await page.mouse.move(over.x + over.width * 0.4, over.y + 50);
  await page.mouse.down();
  await page.mouse.move(over.x + over.width * 0.5, over.y + 60, { steps: 6 });
  await page.mouse.up();
  assert.ok(Math.abs((await shown(page)) / whole - 0.1) < 0.02, "dragged");

  // The wheel zooms about the pointer, once the drawing was clicked into; with Shift a drag
  // moves the stretch.
  await page.keyboard.press("0");
  const x = over.x + over.width * 0.75;
  await page.mouse.move(x, over.y + 60);
  await page.mouse.wheel(0, -300);
  await page.waitForTimeout(50);
  const wheeled = await stretch(page);
  assert.ok(wheeled.to - wheeled.from < whole * 0.8, "wheel");
  const about = (s) => s.from + 0.75 * (s.to - s.from);
  const all = { from: wheeled.first, to: wheeled.first + whole };
  assert.ok(Math.abs(about(wheeled) - about(all)) < whole * 0.01, "about the pointer");
  await page.keyboard.down("Shift");
  await page.mouse.move(over.x + over.width * 0.4, over.y + 60);
  await page.mouse.down();
  await page.mouse.move(over.x + over.width * 0.6, over.y + 60, { steps: 5 });
  await page.mouse.up();
  await page.keyboard.up("Shift");
  const moved = await stretch(page);
  assert.ok(Math.abs(moved.to - moved.from - (wheeled.to - wheeled.from)) < 60, "as long as before");
  assert.ok(Math.abs((wheeled.from - moved.from) / (wheeled.to - wheeled.from) - 0.2) < 0.02, "moved");

  // A finding shows its stretch, from the list and from the drawing.
  await page.click("a.stretch");
  const near = await shown(page);
  assert.ok(near < 3 * 86400, `${near} s about the finding`);
  await page.waitForFunction((before) => document.getElementById("series").dataset.drawn !== before, await drawn(page)).catch(() => {});
  await page.click(".series-tools button:last-child");
  assert.equal(await shown(page), whole);
  const box = await page.locator(".u-over").boundingBox();
  await page.mouse.click(box.x + box.width * (20.25 / 40), box.y + 60);
  assert.ok((await shown(page)) < 3 * 86400, "by a click on the mark");

  // Columns are taken away and put back.
  const column = page.locator(".series-columns input").first();
  await column.uncheck();
  await column.check();
  assert.deepEqual(faults, []);
  await page.close();
});

test("two fingers look closer, one moves", async () => {
  const page = await browser.newPage({ viewport: { width: 360, height: 740 }, hasTouch: true });
  const job = await begun(page);
  await sent(page, job, winter(30));
  await page.waitForSelector("#series canvas");
  await page.locator(".series-sheet").scrollIntoViewIfNeeded();
  const touch = await page.context().newCDPSession(page);
  const over = await page.locator(".u-over").boundingBox();
  const y = over.y + over.height / 2;
  const fingers = async (type, ...shares) =>
    touch.send("Input.dispatchTouchEvent", { type, touchPoints: shares.map((s, id) => ({ x: over.x + over.width * s, y, id })) });
  const whole = await stretch(page);
  await fingers("touchStart", 0.4, 0.6);
  for (const d of [0.05, 0.1, 0.15, 0.2]) await fingers("touchMove", 0.4 - d, 0.6 + d);
  await fingers("touchEnd");
  const near = await stretch(page);
  assert.ok(Math.abs((near.to - near.from) / (whole.to - whole.from) - 1 / 3) < 0.05, `pinched to ${(near.to - near.from) / 86400} days`);
  await fingers("touchStart", 0.3);
  for (const s of [0.4, 0.5, 0.6]) await fingers("touchMove", s);
  await fingers("touchEnd");
  const moved = await stretch(page);
  assert.ok(Math.abs((near.from - moved.from) / (near.to - near.from) - 0.3) < 0.05, "moved by one finger");
  await page.close();
});

test("a long log is seen to be sent, and can be stopped", async () => {
  const page = await browser.newPage({ viewport: { width: 360, height: 740 } });
  const job = await begun(page);
  await page.goto(`${job}/follow-up`);
  const line = await page.context().newCDPSession(page);
  await line.send("Network.emulateNetworkConditions", { offline: false, latency: 5, downloadThroughput: -1, uploadThroughput: 300e3 });
  const log = { name: "winter.csv", mimeType: "text/csv", buffer: Buffer.from(winter(40)) };
  await page.setInputFiles("#log", log);
  await page.click("form.import button[type=submit]");
  await page.waitForFunction(() => Number(document.querySelector(".sending progress")?.value) > 0.02);
  assert.match(await page.textContent(".sending p"), /\d of \d+\.\d MB sent/);
  await sound(page, "sending");
  await page.click(".sending button");
  assert.ok(await page.isHidden(".sending"));
  assert.equal(await page.locator("form.import button[type=submit]").isEnabled(), true);
  await page.reload();
  assert.equal(await page.locator(".cards li").count(), 0, "nothing was kept");
  await line.send("Network.emulateNetworkConditions", { offline: false, latency: 0, downloadThroughput: -1, uploadThroughput: -1 });

  // What is no log is said beside the form.
  await page.setInputFiles("#log", { name: "x.csv", mimeType: "text/csv", buffer: Buffer.from("hello\nthere\n") });
  await page.click("form.import button[type=submit]");
  await page.waitForFunction(() => /dates/.test(document.querySelector(".sending p")?.textContent ?? ""));
  assert.match(page.url(), /follow-up$/);
  await sound(page, "refused");
  await page.setInputFiles("#log", log);
  await page.click("form.import button[type=submit]");
  await page.waitForSelector("#columns[open]");
  await page.close();
});

test("a year by the minute does not stutter", async (t) => {
  const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
  const job = await begun(page);
  await sent(page, job, winter(365));
  await page.waitForSelector("#series canvas");
  const slowest = await page.evaluate(async () => {
    const sheet = document.querySelector(".series-sheet");
    let slowest = 0;
    for (const key of ["+", "+", "+", "ArrowRight", "ArrowRight", "-", "ArrowLeft", "+", "+", "0"]) {
      const began = performance.now();
      sheet.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true }));
      await new Promise((r) => requestAnimationFrame(() => requestAnimationFrame(r)));
      slowest = Math.max(slowest, performance.now() - began);
      await new Promise((r) => setTimeout(r, 150));
    }
    return slowest;
  });
  assert.ok(slowest < 250, `a step took ${slowest} ms`);
  // The wheel turns at each frame; between frames nothing may take long.
  const frames = await page.evaluate(async () => {
    const over = document.querySelector(".u-over");
    const box = over.getBoundingClientRect();
    const took = [];
    let before = await new Promise((r) => requestAnimationFrame(r));
    for (let i = 0; i < 90; i++) {
      over.dispatchEvent(new WheelEvent("wheel", { deltaY: i < 45 ? -40 : 40, ctrlKey: true, clientX: box.left + box.width * 0.6, clientY: box.top + 50, bubbles: true, cancelable: true }));
      const now = await new Promise((r) => requestAnimationFrame(r));
      took.push(now - before);
      before = now;
    }
    return took.sort((a, b) => a - b);
  });
  t.diagnostic(`a frame while zooming: ${frames[45].toFixed(0)} ms in the median, ${frames[80].toFixed(0)} ms at the ninth of ten`);
  assert.ok(frames[80] < 120, `frames take ${frames[80]} ms`);
  await page.close();
});

test("what the household says is kept, on a narrow screen", async () => {
  const page = await browser.newPage({ viewport: { width: 360, height: 740 } });
  const job = await begun(page);
  await page.goto(`${job}/follow-up`);
  await page.selectOption("#felt-0", "too cold");
  await page.fill("#outdoor-0", "5");
  await page.fill("#date-0", "2026-01-12");
  await page.click("form.remarks button.main");
  await page.waitForSelector(".kept-remark");
  await page.waitForSelector(".advice");
  await sound(page, "follow-up");
  assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), "follow-up is too wide");
  await sent(page, job, winter(30));
  await page.waitForSelector("#series canvas");
  assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), "log is too wide");
  await sound(page, "log, narrow");
  await page.goto(`${job}/follow-up`);
  await page.click(".kept-remark button");
  await page.waitForSelector(".kept-remark", { state: "detached" });
  await page.close();
});
