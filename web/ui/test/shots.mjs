// Pictures of every example, narrow to wide, light and dark, to be looked at.
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { examples, launch, root, serve } from "./page.mjs";

const folder = process.env.SHOTS ?? join(root, "build", "shots");
mkdirSync(folder, { recursive: true });
const only = process.env.ONLY?.split(",");
const server = await serve();
const browser = await launch();
try {
  for (const colorScheme of ["light", "dark"]) {
    for (const width of [360, 768, 1440]) {
      const page = await browser.newPage({ colorScheme, viewport: { width, height: width < 500 ? 780 : 900 } });
      for (const example of examples) {
        const name = `${example}-${width}-${colorScheme}`;
        if (only && !only.some((o) => name.includes(o))) continue;
        await page.goto(`${server.url}/?example=${example}`);
        await page.screenshot({ path: join(folder, `${name}-first.png`) });
        await page.screenshot({ path: join(folder, `${name}.png`), fullPage: true });
        await page.click("#play");
        await page.locator("#played .compare").first().waitFor();
        await page.locator("#year").screenshot({ path: join(folder, `${name}-year.png`) });
      }
      await page.close();
    }
  }
} finally {
  await browser.close();
  server.stop();
}
console.log(`pictures in ${folder}`);
