// The page of examples answers while one types. Everything here only speeds up what the plain form
// does as well: the server works everything out, the script puts its answer in place.

import { answer, holdFocus, unfolded } from "./answer.js";
import { chosenWeather, weather } from "./plant.js";
import { probes } from "./probe.js";
import { tell } from "./tell.js";
import { keepYear, play, year } from "./year.js";

const work = document.querySelector<HTMLElement>("#work[data-try]");
/** The wait for the quick answer, in milliseconds: events of one key count as one. */
const pause = 5;

/** And before the full one: the spread of the results finely, and all that is folded away. */
const rest = 500;

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
  timer = window.setTimeout(() => void quick(), pause);
}

async function quick(): Promise<void> {
  const brief = new FormData(form());
  for (const id of unfolded(form())) brief.append("open", id);
  const placed = await fetched("/solve?doubt=quick", { method: "POST", body: brief });
  const figures = document.querySelector("[data-supply]");
  if (placed && figures) timer = window.setTimeout(() => void ask(), rest);
}

async function ask(): Promise<void> {
  await fetched("/solve", { method: "POST", body: new FormData(form()) });
}

/** Fetches an answer and puts it in place, unless something newer was asked meanwhile. */
async function fetched(address: string, request: RequestInit): Promise<boolean> {
  const mine = ++latest;
  clearTimeout(timer);
  asked?.abort();
  asked = new AbortController();
  const results = document.getElementById("results");
  results?.classList.add("stale");
  try {
    const response = await fetch(address, { ...request, signal: asked.signal });
    const text = await response.text();
    if (mine !== latest) return false;
    place(text, request.body instanceof FormData ? request.body.get("outdoors") : null);
    return true;
  } catch (e) {
    if (mine !== latest || (e instanceof DOMException && e.name === "AbortError")) return false;
    tell(form().dataset["away"] ?? "");
    return false;
  }
}

/** Puts an answer in place; weatherThen is the weather with which it was asked for. */
function place(text: string, weatherThen: unknown): void {
  const fresh = new DOMParser().parseFromString(text, "text/html");
  const next = fresh.getElementById("job");
  if (!next) {
    tell(form().dataset["noanswer"] ?? "");
    return;
  }
  const now = chosenWeather(form());
  const focus = holdFocus();
  const keep = keepYear(form());
  answer(form(), next as HTMLFormElement);
  probes(form());
  keep();
  year(form());
  weather(form(), tell, weatherThen !== null && weatherThen !== now ? now : undefined);
  focus();
  tell(next.dataset["spoken"] ?? "");
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
  weather(form(), tell);
  year(form());
  chosenInSight();

  work.addEventListener("input", (e) => {
    const from = e.target as HTMLElement;
    if (from.closest("[data-probe], [data-weather], #year") || from.id === "file") return;
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
    if (by?.id === "play") {
      e.preventDefault();
      void play(form(), tell);
      return;
    }
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

  // What a brief answer left out is fetched when somebody wants to see it.
  work.addEventListener(
    "toggle",
    (e) => {
      const details = e.target as HTMLDetailsElement;
      if (details.open && details.hasAttribute("data-later")) void ask();
    },
    true,
  );

  window.addEventListener("popstate", () => void go(location.href));
}
