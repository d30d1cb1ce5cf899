// The survey answers while one types and saves by itself. The server does all the work;
// this only asks it, and puts its answers in place without disturbing whoever types.

import { holdFocus, swap, unfolded } from "./answer.js";
import { probes } from "./probe.js";
import { tell } from "./tell.js";

const live = "#job[data-live]";

/** The wait before the results are asked for, and before what was typed is saved. */
const pause = 5;
const rest = 600;

/** How long to wait before an answer is sought once more from a server that is away. */
const again = 4000;

let latest = 0;
let asking = 0;
let saving = 0;
let unsaved = false;
let asked: AbortController | undefined;
let queue: Promise<unknown> = Promise.resolve();

const form = (): HTMLFormElement => document.querySelector<HTMLFormElement>(live) as HTMLFormElement;

if (document.querySelector(live)) {
  probes(form());
  recall();
  const work = document.getElementById("work") as HTMLElement;

  work.addEventListener("input", (e) => {
    const from = e.target as HTMLElement;
    if (!from.closest("#fields") || from.closest("[data-probe]")) return;
    typed();
  });
  work.addEventListener("change", (e) => {
    if ((e.target as HTMLElement).closest("#fields")) later(120);
  });

  work.addEventListener("submit", (e) => {
    if (e.target !== form()) return;
    const by = (e as SubmitEvent).submitter as HTMLButtonElement | null;
    e.preventDefault();
    if (by?.dataset["back"]) void back(by.dataset["back"]);
    else if (by?.name === "next") void save("").then(() => (unsaved ? undefined : goOn(by.value)));
    else void save(by?.name === "do" ? by.value : "");
  });

  document.addEventListener("keydown", (e) => {
    if (!(e.ctrlKey || e.metaKey) || e.altKey) return;
    const key = e.key.toLowerCase();
    if (key === "s") {
      e.preventDefault();
      void save("");
    } else if ((key === "z" || key === "y") && !writing()) {
      e.preventDefault();
      void back(key === "y" || e.shiftKey ? "redo" : "undo");
    }
  });

  work.addEventListener("keydown", (e) => {
    const cell = (e.target as HTMLElement).closest<HTMLInputElement>("input[data-cell]");
    if (e.key !== "Enter" || !cell || e.ctrlKey || e.metaKey) return;
    e.preventDefault();
    const [row, column] = (cell.dataset["cell"] ?? "").split(",").map(Number);
    below(Number(row), Number(column), e.shiftKey ? -1 : 1);
  });
  work.addEventListener("paste", (e) => {
    const cell = (e.target as HTMLElement).closest<HTMLInputElement>("input[data-cell]");
    const text = e.clipboardData?.getData("text/plain") ?? "";
    const box = form().querySelector<HTMLTextAreaElement>("#paste");
    const at = form().querySelector<HTMLInputElement>('input[name="paste-at"]');
    if (!cell || !box || !at || !/[\t\n]/.test(text.trim())) return;
    e.preventDefault();
    box.value = text;
    at.value = cell.dataset["cell"] ?? "";
    void save("paste").then(() => {
      box.value = "";
      const fresh = form().querySelector<HTMLTextAreaElement>("#paste");
      if (fresh) fresh.value = "";
    });
  });

  window.addEventListener("beforeunload", (e) => {
    if (unsaved) e.preventDefault();
  });
  document.addEventListener("visibilitychange", () => {
    if (document.hidden && unsaved) void save("");
  });
}

/** An answer of the server that is no form: a full disk, a signed visit. */
class Refused extends Error {}

/** Goes to the next section of a walk. */
function goOn(section: string): void {
  location.href = form().action.replace(/[^/]*$/, section);
}

/** Goes to the cell below, which waits for its line to be made if there is none yet. */
function below(row: number, column: number, step: number): void {
  const find = (): HTMLElement | null => form().querySelector<HTMLElement>(`[data-cell="${row + step},${column}"]`);
  const next = find();
  if (next) {
    next.focus();
    if (next instanceof HTMLInputElement) next.select();
  } else if (step > 0) {
    void save("").then(() => find()?.focus());
  }
}

/** Whether the browser's own undo has something to do: a text that was changed. */
function writing(): boolean {
  const active = document.activeElement;
  if (!(active instanceof HTMLInputElement || active instanceof HTMLTextAreaElement)) return false;
  return active.value !== active.defaultValue;
}

/** Where what is typed waits until the server has it, should the page be closed before. */
const waiting = (): string => `unsaved ${location.pathname}`;

/** What stands in the form otherwise than it came from the server. */
function changed(): Record<string, string> {
  const texts: Record<string, string> = {};
  for (const entry of form().querySelectorAll<HTMLInputElement>("input[name], select[name], textarea[name]")) {
    if (entry.type === "hidden" || entry.type === "file" || (entry.type === "radio" && !entry.checked)) continue;
    const was = form().querySelector<HTMLInputElement>(`input[type=hidden][name="w.${CSS.escape(entry.name.slice(2))}"]`);
    if (entry.type === "radio" || (was && was.value !== entry.value)) texts[entry.name] = entry.value;
  }
  return texts;
}

/** Puts texts into the fields of these names, and tells whether that changed any. */
function put(texts: Record<string, string>): boolean {
  let some = false;
  for (const [name, text] of Object.entries(texts)) {
    for (const entry of form().querySelectorAll<HTMLInputElement>(`[name="${CSS.escape(name)}"]`)) {
      if (entry.type === "radio") {
        some ||= entry.value === text && !entry.checked;
        entry.checked = entry.value === text;
      } else if (entry.value !== text) {
        entry.value = text;
        some = true;
      }
    }
  }
  return some;
}

/** Remembers what the server does not have yet. */
function remember(): void {
  try {
    localStorage.setItem(waiting(), JSON.stringify(changed()));
  } catch {
    // without a place to remember in, the save that follows has to do
  }
}

function forget(): void {
  try {
    localStorage.removeItem(waiting());
  } catch {
    // nothing was remembered then
  }
}

/** Puts back what was typed before the page was closed too early, and saves it. */
function recall(): void {
  let texts: Record<string, string>;
  try {
    texts = JSON.parse(localStorage.getItem(waiting()) ?? "{}") as Record<string, string>;
  } catch {
    return;
  }
  if (put(texts)) typed();
  else forget();
}

function typed(): void {
  unsaved = true;
  remember();
  latest++;
  kept("saving");
  clearTimeout(asking);
  asking = window.setTimeout(() => void attempt(), pause);
  later(rest);
}

function later(wait: number): void {
  clearTimeout(saving);
  saving = window.setTimeout(() => void save(""), wait);
}

/** Says in the bar how far saving is. */
function kept(state: "saving" | "saved" | "away"): void {
  const said = document.querySelector<HTMLElement>("[data-kept]");
  if (!said) return;
  said.textContent = said.dataset[state] ?? "";
  said.classList.toggle("away", state === "away");
}

async function ask(how: "try" | "save", extra: [string, string][], signal?: AbortSignal): Promise<HTMLFormElement | undefined> {
  const body = new URLSearchParams([...new FormData(form())].map(([k, v]) => [k, String(v)]));
  for (const [name, value] of extra) body.append(name, value);
  const request: RequestInit = { method: "POST", body, keepalive: document.hidden && String(body).length < 60_000 };
  if (signal) request.signal = signal;
  const address = new URL(form().action);
  address.searchParams.set("live", how);
  const response = await fetch(address, request);
  return read(await response.text());
}

function read(text: string): HTMLFormElement | undefined {
  const page = new DOMParser().parseFromString(text, "text/html");
  const next = page.querySelector<HTMLFormElement>(live);
  if (!next) throw new Refused(page.querySelector("main p")?.textContent?.trim() ?? "");
  return next;
}

/** What the answers would lead to, at once. */
async function attempt(): Promise<void> {
  const mine = latest;
  asked?.abort();
  asked = new AbortController();
  document.getElementById("results")?.classList.add("stale");
  try {
    const next = await ask("try", unfolded(form()).map((id) => ["open", id]), asked.signal);
    if (!next || mine !== latest) return;
    const focus = holdFocus();
    results(next);
    notes(next);
    focus();
  } catch {
    // the save that follows says what is wrong
  }
}

/** Saves; several saves wait for each other, so that each sees what the one before kept. */
function save(what: string): Promise<void> {
  clearTimeout(saving);
  clearTimeout(asking);
  const run = async (): Promise<void> => {
    const mine = latest;
    kept("saving");
    try {
      const next = await ask("save", what ? [["do", what]] : []);
      if (!next) return;
      const quiet = mine === latest;
      if (quiet) {
        unsaved = false;
        forget();
      }
      const focus = holdFocus();
      bars(next);
      if (quiet) results(next);
      fields(next, quiet);
      focus();
      if (what) land(what);
      kept(quiet ? "saved" : "saving");
      if (quiet) tell(next.dataset["spoken"] ?? "");
    } catch (e) {
      unsaved = true;
      kept("away");
      const said = document.querySelector<HTMLElement>("[data-kept]");
      if (said && e instanceof Refused && e.message) said.textContent = e.message;
      tell(said?.textContent ?? "");
      clearTimeout(saving);
      saving = window.setTimeout(() => void save(what), again);
    }
  };
  const done = queue.then(run, run);
  queue = done;
  return done;
}

/** Takes the newest change back, or brings it again, and shows the job as it is then. */
async function back(which: string): Promise<void> {
  if (unsaved) await save("");
  try {
    await fetch(form().querySelector<HTMLButtonElement>(`[data-back="${which}"]`)?.formAction ?? "", { method: "POST", redirect: "manual" });
    const next = read(await (await fetch(form().action)).text());
    if (!next) return;
    bars(next);
    results(next);
    fields(next, true);
    kept("saved");
    tell(next.dataset["spoken"] ?? "");
  } catch {
    kept("away");
  }
}

function bars(next: HTMLFormElement): void {
  for (const which of ["undo", "redo"]) {
    const mine = form().querySelector<HTMLButtonElement>(`[data-back="${which}"]`);
    const other = next.querySelector<HTMLButtonElement>(`[data-back="${which}"]`);
    if (!mine || !other) continue;
    mine.disabled = other.disabled;
    mine.title = other.title;
  }
  const mine = form().querySelector(".parts ul");
  const other = next.querySelector(".parts ul");
  if (mine && other && !mine.contains(document.activeElement)) mine.replaceWith(document.adoptNode(other));
}

function results(next: HTMLFormElement): void {
  const open = unfolded(form());
  swap(form(), next, "headline");
  swap(form(), next, "results");
  for (const id of open) {
    const details = document.getElementById(id);
    if (details instanceof HTMLDetailsElement) details.open = true;
  }
  probes(form());
}

/** Brings what is said beside each field up to date, and leaves the fields alone. */
function notes(next: HTMLFormElement): void {
  for (const mine of form().querySelectorAll<HTMLElement>("[data-field]")) {
    const other = twin(next, mine);
    if (other) note(mine, other);
  }
}

function note(mine: HTMLElement, other: HTMLElement): void {
  mine.className = other.className;
  const old = mine.querySelector("[data-note]");
  const fresh = other.querySelector("[data-note]");
  if (old && fresh) old.replaceWith(document.adoptNode(fresh));
  const known = mine.querySelector("[data-known]");
  const now = other.querySelector("[data-known]");
  if (!known?.contains(document.activeElement)) {
    if (known && now) known.replaceWith(document.adoptNode(now));
    else if (known) known.remove();
    else if (now) mine.querySelector(".remark")?.append(document.adoptNode(now));
  }
  const entry = mine.querySelector(".entry input, .entry select, .entry textarea");
  if (other.querySelector(".entry [aria-invalid]")) entry?.setAttribute("aria-invalid", "true");
  else entry?.removeAttribute("aria-invalid");
}

function twin(next: HTMLElement, mine: HTMLElement): HTMLElement | null {
  return next.querySelector<HTMLElement>(`[data-field="${CSS.escape(mine.dataset["field"] ?? "")}"]`);
}

/** Puts the saved fields in place: all of them, or all but those with newer typing. */
function fields(next: HTMLFormElement, quiet: boolean): void {
  const old = form().querySelector<HTMLElement>("#fields");
  const fresh = next.querySelector<HTMLElement>("#fields");
  if (!old || !fresh) return;
  const names = (root: HTMLElement): string => [...root.querySelectorAll<HTMLElement>("[data-field]")].map((f) => f.dataset["field"]).join();
  if (names(old) !== names(fresh)) {
    const open = unfolded(old);
    const id = document.activeElement?.id;
    const newer = quiet ? {} : changed();
    old.replaceWith(document.adoptNode(fresh));
    put(newer);
    for (const o of open) {
      const details = document.getElementById(o);
      if (details instanceof HTMLDetailsElement) details.open = true;
    }
    if (id) document.getElementById(id)?.focus({ preventScroll: true });
    return;
  }
  for (const mine of old.querySelectorAll<HTMLElement>("[data-field]")) {
    const other = twin(fresh, mine);
    if (!other) continue;
    const entry = mine.querySelector<HTMLInputElement>(".entry input, .entry select, .entry textarea");
    const held = mine.contains(document.activeElement) || !quiet;
    note(mine, other.cloneNode(true) as HTMLElement);
    for (const hidden of mine.querySelectorAll<HTMLInputElement>("input[type=hidden]")) {
      const its = other.querySelector<HTMLInputElement>(`input[name="${CSS.escape(hidden.name)}"]`);
      if (its) hidden.value = its.value;
    }
    const theirs = other.querySelector<HTMLInputElement>(".entry input, .entry select, .entry textarea");
    if (entry instanceof HTMLSelectElement && theirs instanceof HTMLSelectElement) choices(entry, theirs);
    if (!held && entry && theirs) {
      entry.value = theirs.value;
      const unit = mine.querySelector(".entry .unit");
      const fresh = other.querySelector(".entry .unit");
      if (unit && fresh) unit.textContent = fresh.textContent;
    }
  }
}

/** Brings what can be chosen up to date: a name more or less that a field may refer to. */
function choices(mine: HTMLSelectElement, theirs: HTMLSelectElement): void {
  const words = (s: HTMLSelectElement): string => [...s.options].map((o) => o.value).join();
  if (words(mine) === words(theirs)) return;
  const now = mine.value;
  mine.replaceChildren(...[...theirs.children].map((c) => c.cloneNode(true)));
  mine.value = now;
}

/** After a part was added: its first field is the next to be filled in. */
function land(what: string): void {
  const [verb, path] = what.split(" ");
  if (!path || !["add", "make", "duplicate", "library"].includes(verb ?? "")) return;
  const wrong = document.querySelector<HTMLElement>('[data-field^="lib"].wrong');
  if (verb === "library" && wrong) {
    wrong.querySelector<HTMLElement>("select, input")?.focus();
    return;
  }
  const id = `b-${path.replace(/[.[]/g, "-").replace(/\]/g, "")}`;
  const block = document.getElementById(id);
  const entries = block?.querySelectorAll<HTMLElement>(":scope > fieldset");
  const at = (verb === "add" || verb === "library") && entries?.length ? entries[entries.length - 1] : block;
  at?.scrollIntoView({ block: "nearest" });
  at?.querySelector<HTMLElement>(".entry input, .entry select")?.focus();
}
