// The results of a job on pages of their own: curves to read, the boiler room in any
// weather, the year on request.

import { weather } from "./plant.js";
import { probes } from "./probe.js";
import { tell } from "./tell.js";
import { play, year } from "./year.js";

const form = document.querySelector<HTMLFormElement>(".house #job:not([data-live])");

if (form) {
  probes(form);
  weather(form, tell);
  year(form);
  form.addEventListener("submit", (e) => {
    const by = (e as SubmitEvent).submitter;
    if (by?.id !== "play") return;
    e.preventDefault();
    void play(form, tell);
  });
}
