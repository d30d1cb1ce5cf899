// The page answers while one types. Everything here only speeds up what the plain form
// does as well: the server works everything out, the script puts its answer in place.

import { answer } from "./answer.js";
import { probes } from "./probe.js";

const work = document.getElementById("work");
const status = document.createElement("p");
status.setAttribute("role", "status");
status.className = "unseen";
document.body.append(status);

/** How long a pause in typing is waited for, in milliseconds. */
const pause = 120;

/** Counts what was done; an answer to anything but the latest is dropped. */
let latest = 0;
let timer = 0;
let asked: AbortController | undefined;

function form(): HTMLFormElement {
  return document.getElementById("job") as HTMLFormElement;
}

function later(): void {
  latest++;
  clearTimeout(timer);
  timer = window.setTimeout(() => void ask(), pause);
}

async function ask(): Promise<void> {
  clearTimeout(timer);
  await fetched("/solve", { method: "POST", body: new FormData(form()) });
}

/** Fetches an answer and puts it in place, unless something newer was asked meanwhile. */
async function fetched(address: string, request: RequestInit): Promise<boolean> {
  const mine = ++latest;
  asked?.abort();
  asked = new AbortController();
  const results = document.getElementById("results");
  results?.classList.add("stale");
  try {
    const response = await fetch(address, { ...request, signal: asked.signal });
    const text = await response.text();
    if (mine !== latest) return false;
    place(text);
    return true;
  } catch (e) {
    if (mine !== latest || (e instanceof DOMException && e.name === "AbortError")) return false;
    status.textContent = "The server does not answer; the figures shown are the last ones.";
    return false;
  }
}

function place(text: string): void {
  const fresh = new DOMParser().parseFromString(text, "text/html");
  const next = fresh.getElementById("job");
  if (!next) {
    status.textContent = "The server gave no answer that can be shown.";
    return;
  }
  answer(form(), next as HTMLFormElement);
  probes(form());
  const said = next.dataset["spoken"] ?? "";
  if (status.textContent !== said) status.textContent = said;
}

/** Shows another example without leaving the page. */
async function go(address: string): Promise<boolean> {
  const done = await fetched(address, { headers: { Accept: "text/html" } });
  return done;
}

/** On a narrow screen the examples lie in a row: the chosen one belongs in sight. */
function chosenInSight(): void {
  const chosen = document.querySelector<HTMLElement>("a[data-example][aria-current]");
  const row = chosen?.closest("ul");
  if (chosen && row) row.scrollLeft = chosen.offsetLeft - row.offsetLeft - 16;
}

if (work) {
  probes(form());
  chosenInSight();

  work.addEventListener("input", (e) => {
    const from = e.target as HTMLElement;
    if (from.closest("[data-probe]") || from.id === "file") return;
    later();
  });

  work.addEventListener("change", (e) => {
    const from = e.target as HTMLInputElement;
    if (from.id !== "file" || !from.files?.length) return;
    void ask().then(() => {
      from.value = ""; // it is in the document now
      const own = document.getElementById("file") as HTMLInputElement | null;
      if (own) own.value = "";
    });
  });

  work.addEventListener("submit", (e) => {
    const by = (e as SubmitEvent).submitter;
    if (by?.hasAttribute("formaction")) return; // a download
    e.preventDefault();
    void ask();
  });

  work.addEventListener("click", (e) => {
    const link = (e.target as HTMLElement).closest<HTMLAnchorElement>("a[data-example]");
    if (!link || e.ctrlKey || e.metaKey || e.shiftKey || e.button !== 0) return;
    e.preventDefault();
    const { example } = link.dataset;
    void go(link.href).then((done) => {
      if (!done) return;
      history.pushState(null, "", link.href);
      document.querySelector<HTMLElement>(`a[data-example="${example}"]`)?.focus({ preventScroll: true });
    });
  });

  window.addEventListener("popstate", () => void go(location.href));
}
