// The pictures of docs/guide.md, taken from the running program.
import { mkdirSync, statSync } from "node:fs";
import { join } from "node:path";
import { launch, root, serve } from "./page.mjs";

const folder = process.env.PICTURES ?? join(root, "docs", "pictures");
mkdirSync(folder, { recursive: true });

/** The most that a picture may weigh, in bytes. */
const most = 150_000;

const server = await serve();
const browser = await launch();
try {
  const context = await browser.newContext({ viewport: { width: 960, height: 720 }, colorScheme: "light", locale: "en-US", reducedMotion: "reduce" });
  const page = await context.newPage();
  const take = async (name) => {
    const path = join(folder, `guide-${name}.png`);
    await page.screenshot({ path });
    const { size } = statSync(path);
    if (size > most) throw new Error(`${path} weighs ${size} bytes; ${most} at most`);
    console.log(`${path}: ${Math.round(size / 1000)} kB`);
  };

  await page.goto(`${server.url}/help`);
  await page.getByRole("button", { name: "Take the tour" }).click();
  await page.waitForURL(/tour=1$/);
  const job = new URL(page.url()).pathname.replace(/\/survey.*/, "");
  await take("tour");

  await page.goto(`${server.url}${job}/survey/rooms`);
  await page.locator("#rooms-table").evaluate((e) => e.scrollIntoView());
  await take("rooms");

  await page.goto(`${server.url}/library`);
  await page.locator("#usual-walls > summary").click();
  await page.locator("#usual-walls").scrollIntoViewIfNeeded();
  await page.locator(".usual").evaluate((e) => e.scrollIntoView());
  await take("library");

  await page.goto(`${server.url}${job}/settings`);
  await page.locator(".settings").first().evaluate((e) => e.scrollIntoView());
  await take("settings");

  await page.goto(`${server.url}${job}/curve`);
  await page.locator("#results").evaluate((e) => e.scrollIntoView());
  await take("curve");

  await page.goto(`${server.url}${job}/boiler-room`);
  await page.locator("#results").evaluate((e) => e.scrollIntoView());
  await take("boiler-room");

  await page.goto(`${server.url}${job}/year`);
  await page.click("#play");
  await page.locator("#played .compare").first().waitFor();
  await page.locator("#played").evaluate((e) => e.scrollIntoView());
  await take("year");

  await page.setViewportSize({ width: 390, height: 780 });
  await page.goto(`${server.url}${job}/visit`);
  await page.locator(`form[action$="/visits"] button`).first().click();
  await page.waitForURL(/\/visit\/.+/);
  await take("visit");
} finally {
  await browser.close();
  server.stop();
}
