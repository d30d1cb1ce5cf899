// Putting an answer in place without disturbing whoever is typing: the field that has
// the focus keeps its text and its cursor, and what was unfolded stays unfolded.

export function answer(now: HTMLFormElement, next: HTMLFormElement): void {
  const open = unfolded(now);
  swap(now, next, "headline");
  swap(now, next, "results");
  fields(now, next);
  own(now, next);
  marks(now, next);
  for (const id of open) {
    const details = document.getElementById(id);
    if (details instanceof HTMLDetailsElement) details.open = true;
  }
}

/** Remembers what has the focus among the results and gives what finds it again. */
export function holdFocus(): () => void {
  const active = document.activeElement;
  if (!active?.closest("#results")) return () => undefined;
  const id = active.id || active.closest("details")?.id;
  return () => {
    if (!id || active.isConnected) return;
    const now = document.getElementById(id);
    const again = now instanceof HTMLDetailsElement ? now.querySelector("summary") : now;
    again?.focus({ preventScroll: true });
  };
}

export function unfolded(root: HTMLElement): string[] {
  return [...root.querySelectorAll<HTMLDetailsElement>("details[open][id]")].map((d) => d.id);
}

/** Puts the newer of two parts with the same name in place. */
export function swap(now: HTMLElement, next: HTMLElement, id: string): void {
  const old = now.querySelector(`#${id}`);
  const fresh = next.querySelector(`#${id}`);
  if (old && fresh) old.replaceWith(document.adoptNode(fresh));
}

/** Replaces each field but the one being typed in, of which only the note changes. */
function fields(now: HTMLElement, next: HTMLElement): void {
  const old = now.querySelector<HTMLElement>("#fields");
  const fresh = next.querySelector<HTMLElement>("#fields");
  if (!old || !fresh) return;
  const active = document.activeElement;
  const held = active?.closest<HTMLElement>("[data-field]");
  if (!held || !old.contains(held) || names(old) !== names(fresh)) {
    const id = active && old.contains(active) ? active.id : "";
    old.replaceWith(document.adoptNode(fresh));
    if (id) document.getElementById(id)?.focus({ preventScroll: true });
    return;
  }
  for (const mine of old.querySelectorAll<HTMLElement>("[data-field]")) {
    const other = fresh.querySelector<HTMLElement>(`[data-field="${CSS.escape(mine.dataset["field"] ?? "")}"]`);
    if (!other) continue;
    if (mine !== held) {
      mine.replaceWith(document.adoptNode(other));
      continue;
    }
    mine.className = other.className;
    const note = other.querySelector("[data-note]");
    if (note) mine.querySelector("[data-note]")?.replaceWith(document.adoptNode(note));
    const shown = mine.querySelector<HTMLInputElement>("input[type=hidden]");
    const other2 = other.querySelector<HTMLInputElement>("input[type=hidden]");
    if (shown && other2) shown.value = other2.value;
    const entry = mine.querySelector(".entry input, .entry select");
    const invalid = other.querySelector("[aria-invalid]");
    if (invalid) entry?.setAttribute("aria-invalid", "true");
    else entry?.removeAttribute("aria-invalid");
  }
}

function names(root: HTMLElement): string {
  return [...root.querySelectorAll<HTMLElement>("[data-field]")].map((f) => f.dataset["field"]).join();
}

/** Brings the document up to date, unless it is being edited. */
function own(now: HTMLElement, next: HTMLElement): void {
  const old = now.querySelector<HTMLTextAreaElement>("#document");
  const fresh = next.querySelector<HTMLTextAreaElement>("#document");
  if (!old || !fresh) return;
  for (const name of ["aria-invalid", "aria-describedby"]) {
    const value = fresh.getAttribute(name);
    if (value === null) old.removeAttribute(name);
    else old.setAttribute(name, value);
  }
  if (document.activeElement !== old) {
    old.value = fresh.value;
    old.rows = fresh.rows;
  }
}

/** Which example it is, and which units. */
function marks(now: HTMLElement, next: HTMLElement): void {
  const example = next.querySelector<HTMLInputElement>('input[name="example"]');
  const mine = now.querySelector<HTMLInputElement>('input[name="example"]');
  if (example && mine) mine.value = example.value;
  for (const link of now.querySelectorAll<HTMLAnchorElement>("a[data-example]")) {
    if (example && link.dataset["example"] === example.value) link.setAttribute("aria-current", "true");
    else link.removeAttribute("aria-current");
  }
  for (const radio of now.querySelectorAll<HTMLInputElement>('input[name="units"]')) {
    const other = next.querySelector<HTMLInputElement>(`input[name="units"][value="${radio.value}"]`);
    radio.checked = other?.checked ?? radio.checked;
  }
}
