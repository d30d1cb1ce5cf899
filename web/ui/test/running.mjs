// What every walk begins with: the server and a browser run until the last one ends.
import { after, before } from "node:test";
import { launch, serve } from "./page.mjs";

export let server, browser;

before(async () => {
  server = await serve();
  browser = await launch();
});

after(async () => {
  await browser?.close();
  server?.stop();
});
