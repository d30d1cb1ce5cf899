// A log of a year takes a while over a slow line: the form shows how much of it has gone,
// and lets it be stopped. What the server has against a log stands beside the form.

import { figure } from "./figures.js";

const form = document.querySelector<HTMLFormElement>("form[data-sending]");
const input = form?.querySelector<HTMLInputElement>('input[type="file"]');
if (form && input) begin(form, input);

function begin(form: HTMLFormElement, input: HTMLInputElement): void {
  const told = (key: string): string => form.dataset[key] ?? "";
  const take = form.querySelector<HTMLButtonElement>("button[type=submit]");
  const bar = document.createElement("progress");
  const status = document.createElement("p");
  status.setAttribute("role", "status");
  const stop = document.createElement("button");
  stop.type = "button";
  stop.textContent = told("stop");
  const box = document.createElement("div");
  box.className = "sending";
  box.hidden = true;
  bar.setAttribute("aria-label", told("sendingName"));
  box.append(bar, status, stop);
  form.append(box);

  let request: XMLHttpRequest | undefined;
  form.addEventListener("submit", (e) => {
    const file = input.files?.[0];
    if (!file || request) return;
    e.preventDefault();
    request = send(file);
  });
  stop.addEventListener("click", () => {
    request?.abort();
    rest("");
    take?.focus();
  });
  // Whoever comes back to the page finds it as it was.
  window.addEventListener("pageshow", (e) => {
    if (e.persisted) rest("");
  });

  function send(file: File): XMLHttpRequest {
    const all = file.size;
    const x = new XMLHttpRequest();
    x.open("POST", form.action);
    let shown = -1;
    x.upload.addEventListener("progress", (e) => {
      const part = e.total > 0 ? e.loaded / e.total : 0;
      if (Math.round(part * 100) === shown) return;
      shown = Math.round(part * 100);
      bar.value = part;
      status.textContent = told("sending").replace("{done}", megabytes(part * all)).replace("{all}", megabytes(all));
    });
    x.upload.addEventListener("load", () => {
      bar.removeAttribute("value");
      status.textContent = told("reading");
    });
    x.addEventListener("load", () => {
      if (x.status < 400) {
        location.assign(x.responseURL);
        return;
      }
      const page = new DOMParser().parseFromString(x.responseText, "text/html");
      rest(page.querySelector("main p")?.textContent?.trim() || told("broken"));
    });
    x.addEventListener("error", () => rest(told("broken")));
    bar.value = 0;
    status.textContent = told("sending").replace("{done}", megabytes(0)).replace("{all}", megabytes(all));
    box.hidden = bar.hidden = stop.hidden = false;
    if (take) take.disabled = true;
    x.send(new FormData(form));
    return x;
  }

  /** Ends a sending, with what there is to say about it. */
  function rest(why: string): void {
    request = undefined;
    if (take) take.disabled = false;
    status.textContent = why;
    bar.hidden = stop.hidden = true;
    box.hidden = why === "";
  }
}

function megabytes(bytes: number): string {
  return figure((bytes / 1e6).toFixed(1));
}
